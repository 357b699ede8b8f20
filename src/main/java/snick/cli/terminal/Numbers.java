package snick.cli.terminal;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Locale;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;

/** Numbers as people and programs read them; always a decimal point. */
public final class Numbers {
  private static final double JSON_STEPS_PER_UNIT = 1e6;
  private static final MathContext SIX_DIGITS = new MathContext(6);

  private Numbers() {}

  /** {@code value} with {@code decimals} digits after the point. */
  public static String fixed(double value, int decimals) {
    return String.format(Locale.ROOT, "%." + decimals + "f", value);
  }

  /** Rounded to a millionth of its unit: far below any uncertainty here, and short to read. */
  public static double millionths(double value) {
    return Math.rint(value * JSON_STEPS_PER_UNIT) / JSON_STEPS_PER_UNIT;
  }

  /**
   * Value and expanded uncertainty, the last digit shown being the second significant one of the
   * uncertainty: {@code 131.4 ± 1.2}. Without uncertainty, as of what was typed in, the value
   * alone, six significant digits.
   */
  public static String plusMinus(double value, double expandedUncertainty) {
    if (expandedUncertainty == 0) {
      return significant(value);
    }
    int decimals = decimalsFor(expandedUncertainty);
    return fixed(value, decimals) + " ± " + fixed(expandedUncertainty, decimals);
  }

  private static String significant(double value) {
    return new BigDecimal(value, SIX_DIGITS).stripTrailingZeros().toPlainString();
  }

  private static int decimalsFor(double uncertainty) {
    if (!(uncertainty > 0)) {
      return 1;
    }
    return (int) Math.max(0, Math.min(6, 1 - Math.floor(Math.log10(uncertainty))));
  }

  /** Force and its expanded uncertainty (k = 2) in gf. */
  public static String gramForce(MeasuredForce force) {
    return plusMinus(force.value().gramForce(), 2 * force.standardUncertainty().gramForce())
        + " gf";
  }

  /** Force and its expanded uncertainty (k = 2) in N. */
  public static String newtons(MeasuredForce force) {
    return plusMinus(force.value().newtons(), 2 * force.standardUncertainty().newtons()) + " N";
  }

  /** Force in gf with one digit. */
  public static String gramForce(Force force) {
    return fixed(force.gramForce(), 1);
  }
}
