package snick.force.mass;

import java.util.Locale;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/** Range checks that NaN fails, with an error that names value, limits and unit. */
public final class Range {
  private Range() {}

  /** {@code value}, if it lies from {@code low} to {@code high}, both included. */
  public static double require(String what, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high)) {
      throw new NotAccepted(
          Phrase.of("refused.outside_unit")
              .with("field", Phrase.of("field." + what.replace(' ', '_')))
              .with("value", value)
              .with("unit", unit)
              .with("low", text(low))
              .with("high", text(high)));
    }
    return value;
  }

  private static String text(double limit) {
    return String.format(Locale.ROOT, "%.8g", limit).replaceAll("\\.?0+$", "");
  }
}
