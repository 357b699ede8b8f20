package snick.verdict.comparison;

import java.util.Locale;
import snick.phrase.Phrase;
import snick.verdict.statistic.Interval;

/** Figures as they stand in reasons. */
public final class Wording {
  private static final double TEN_GF = 10;

  private Wording() {}

  public static String gf(double gramForce) {
    String form = Math.abs(gramForce) >= TEN_GF ? "%.1f gf" : "%.2f gf";
    return String.format(Locale.ROOT, form, gramForce).replace('-', '−');
  }

  static String signedGf(double gramForce) {
    String shown = gf(gramForce);
    return gramForce > 0 && !shown.startsWith("0.00") ? "+" + shown : shown;
  }

  public static Phrase range(Interval gf) {
    return Phrase.of("reason.range", "low", gf(gf.low()), "high", gf(gf.high()));
  }

  static Phrase between(Interval gf) {
    return Phrase.of("reason.between", "low", gf(gf.low()), "high", gf(gf.high()));
  }

  public static String p(double probability) {
    return probability < 1e-4 ? "p < 0.0001" : String.format(Locale.ROOT, "p = %.4f", probability);
  }

  public static String percent(double share) {
    return String.format(Locale.ROOT, "%.0f %%", 100 * share);
  }

  public static String number(double value) {
    return String.format(Locale.ROOT, "%.2f", value);
  }

  public static Phrase cuts(int n) {
    return Phrase.count("reason.cuts", n);
  }

  /** How often chance alone would make a difference at least as large. */
  static Phrase chance(double probability) {
    if (probability < 1e-3) {
      return Phrase.of("reason.chance_rare");
    }
    int percent = (int) Math.round(100 * probability);
    if (percent < 2) {
      return Phrase.of(percent < 1 ? "reason.chance_small" : "reason.chance_once");
    }
    return Phrase.of("reason.chance", "n", percent);
  }
}
