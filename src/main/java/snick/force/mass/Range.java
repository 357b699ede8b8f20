package snick.force.mass;

import java.util.Locale;

/** Range checks that NaN fails, with an error that names value, limits and unit. */
public final class Range {
  private Range() {}

  /** {@code value}, if it lies from {@code low} to {@code high}, both included. */
  public static double require(String what, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          what
              + " "
              + value
              + " "
              + unit
              + " is outside "
              + text(low)
              + " to "
              + text(high)
              + " "
              + unit);
    }
    return value;
  }

  private static String text(double limit) {
    return String.format(Locale.ROOT, "%.8g", limit).replaceAll("\\.?0+$", "");
  }
}
