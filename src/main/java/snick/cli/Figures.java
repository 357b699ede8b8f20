package snick.cli;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.verdict.Interval;

/** Forces, intervals and probabilities of verdicts, as people and programs read them. */
final class Figures {
  private static final double ONE_DECIMAL_FROM_GF = 10;
  private static final double SMALLEST_P_SHOWN = 1e-4;

  private Figures() {}

  /** Gram-force without its unit, one decimal from 10 gf on, else two. */
  static String number(double gramForce) {
    return Numbers.fixed(gramForce, Math.abs(gramForce) >= ONE_DECIMAL_FROM_GF ? 1 : 2);
  }

  /** As {@link #number}; a dash if there is none. */
  static String number(OptionalDouble gramForce) {
    return gramForce.isPresent() ? number(gramForce.getAsDouble()) : "-";
  }

  static String gf(double gramForce) {
    return number(gramForce) + " gf";
  }

  static String signedGf(double gramForce) {
    return (gramForce > 0 ? "+" : "") + gf(gramForce);
  }

  /** From one end to the other, without unit. */
  static String range(Interval gramForce) {
    return number(gramForce.low()) + " to " + number(gramForce.high());
  }

  /** As {@link #range}; a dash if there is none. */
  static String range(Optional<Interval> gramForce) {
    return gramForce.map(Figures::range).orElse("-");
  }

  static String p(double probability) {
    return probability < SMALLEST_P_SHOWN
        ? "p < 0.0001"
        : String.format(Locale.ROOT, "p = %.4f", probability);
  }

  static String percent(double share) {
    return String.format(Locale.ROOT, "%.0f %%", 100 * share);
  }

  /** A word such as {@code no_difference_shown} in plain words. */
  static String plain(String word) {
    return word.replace('_', ' ');
  }

  /** Both ends, for programs. */
  static List<Double> ends(Interval interval) {
    return List.of(interval.low(), interval.high());
  }

  /** The number, or null, for programs. */
  static Double orNull(OptionalDouble value) {
    return value.isPresent() ? value.getAsDouble() : null;
  }
}
