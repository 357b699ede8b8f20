package snick.verdict.comparison;

import java.util.Locale;
import snick.verdict.statistic.Interval;

/** Figures as they stand in reasons. */
public final class Wording {
  private static final double TEN_GF = 10;

  private Wording() {}

  public static String gf(double gramForce) {
    String form = Math.abs(gramForce) >= TEN_GF ? "%.1f gf" : "%.2f gf";
    return String.format(Locale.ROOT, form, gramForce);
  }

  static String signedGf(double gramForce) {
    return (gramForce > 0 ? "+" : "") + gf(gramForce);
  }

  public static String range(Interval gf) {
    return gf(gf.low()) + " to " + gf(gf.high());
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

  public static String cuts(int n) {
    return n == 1 ? "1 cut" : n + " cuts";
  }
}
