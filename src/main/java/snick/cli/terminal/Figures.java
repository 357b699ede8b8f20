package snick.cli.terminal;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.verdict.statistic.Interval;

/** Forces, intervals and probabilities of verdicts, as people and programs read them. */
public final class Figures {
  private static final double ONE_DECIMAL_FROM_GF = 10;
  private static final double SMALLEST_P_SHOWN = 1e-4;

  private Figures() {}

  /** Gram-force without its unit, one decimal from 10 gf on, else two. */
  public static String number(double gramForce) {
    return Numbers.fixed(gramForce, Math.abs(gramForce) >= ONE_DECIMAL_FROM_GF ? 1 : 2);
  }

  /** As {@link #number}; a dash if there is none. */
  public static String number(OptionalDouble gramForce) {
    return gramForce.isPresent() ? number(gramForce.getAsDouble()) : "-";
  }

  /** Gram-force as {@link #number}, with its unit. */
  public static String gf(double gramForce) {
    return number(gramForce) + " gf";
  }

  /** Gram-force with its unit, a plus before what is above 0. */
  public static String signedGf(double gramForce) {
    return (gramForce > 0 ? "+" : "") + gf(gramForce);
  }

  /** From one end to the other, without unit. */
  public static String range(Interval gramForce) {
    return number(gramForce.low()) + " to " + number(gramForce.high());
  }

  /** As {@link #range}; a dash if there is none. */
  public static String range(Optional<Interval> gramForce) {
    return gramForce.map(Figures::range).orElse("-");
  }

  /** A probability from 0 to 1 as {@code p = 0.0123}, four decimals. */
  public static String p(double probability) {
    return probability < SMALLEST_P_SHOWN
        ? "p < 0.0001"
        : String.format(Locale.ROOT, "p = %.4f", probability);
  }

  /** A share from 0 to 1 in whole per cent. */
  public static String percent(double share) {
    return String.format(Locale.ROOT, "%.0f %%", 100 * share);
  }

  /** Both ends, for programs. */
  public static List<Double> ends(Interval interval) {
    return List.of(interval.low(), interval.high());
  }

  /** The number, or null, for programs. */
  public static Double orNull(OptionalDouble value) {
    return value.isPresent() ? value.getAsDouble() : null;
  }
}
