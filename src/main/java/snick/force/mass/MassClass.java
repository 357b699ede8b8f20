package snick.force.mass;

import java.util.Arrays;
import java.util.Locale;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.quantity.Mass;

/**
 * Accuracy classes of weights and their maximum permissible errors from 1 g to 5 kg, OIML R 111-1
 * table 1. Figures read on two pages that quote it, not in the recommendation itself; see {@code
 * rig-calibration/class-limits.csv}.
 */
public enum MassClass {
  E2,
  F1,
  F2,
  M1,
  M2,
  M3;

  private static final int[] NOMINAL_GRAMS = {1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000};

  /** Limits in mg, in the order of the nominal masses. */
  private double[] limitsMilligrams() {
    return switch (this) {
      case E2 -> new double[] {0.03, 0.04, 0.05, 0.06, 0.08, 0.10, 0.16, 0.3, 0.8, 1.6, 3.0, 8.0};
      case F1 -> new double[] {0.10, 0.12, 0.16, 0.20, 0.25, 0.3, 0.5, 1.0, 2.5, 5.0, 10, 25};
      case F2 -> new double[] {0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.6, 3.0, 8.0, 16, 30, 80};
      case M1 -> new double[] {1.0, 1.2, 1.6, 2.0, 2.5, 3.0, 5.0, 10, 25, 50, 100, 250};
      case M2 -> new double[] {3.0, 4.0, 5.0, 6.0, 8.0, 10, 16, 30, 80, 160, 300, 800};
      case M3 -> new double[] {10, 12, 16, 20, 25, 30, 50, 100, 250, 500, 1000, 2500};
    };
  }

  /**
   * Maximum permissible error of a weight of this class, either way.
   *
   * @throws NotAccepted if {@code nominal} is none of those that have a limit
   */
  public Mass limit(Mass nominal) {
    for (int i = 0; i < NOMINAL_GRAMS.length; i++) {
      if (Math.abs(nominal.grams() - NOMINAL_GRAMS[i]) < 1e-9 * NOMINAL_GRAMS[i]) {
        return Mass.ofGrams(limitsMilligrams()[i] / 1000);
      }
    }
    throw new NotAccepted(
        Phrase.of("refused.no_limit_of_class")
            .with("class", this)
            .with("grams", nominal.grams())
            .with("known", Arrays.toString(NOMINAL_GRAMS)));
  }

  /**
   * The class that {@code text} names.
   *
   * @throws NotAccepted if it is none of them
   */
  public static MassClass named(String text) {
    return Arrays.stream(values())
        .filter(c -> c.name().equals(text.strip().toUpperCase(Locale.ROOT)))
        .findFirst()
        .orElseThrow(
            () ->
                new NotAccepted(
                    Phrase.of("refused.mass_class")
                        .with("text", text)
                        .with("known", Arrays.stream(values()).<Object>map(Enum::name).toList())));
  }
}
