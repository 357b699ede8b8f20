package snick.force.check;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Control chart of individual values with moving ranges of two (NIST/SEMATECH e-Handbook, 6.3.2.2).
 * Limits are mean ± 3·MR̄/d2 with the tabled d2 = 1.128 and 3.267·MR̄ for the ranges, as the
 * handbook works its example; the exact d2 is 2/√π = 1.12838.
 *
 * @param centre mean of the values
 * @param meanMovingRange mean of the moving ranges
 */
public record IndividualsChart(double centre, double meanMovingRange) {
  /** Mean range of two values from a normal distribution with standard deviation 1, as tabled. */
  public static final double D2 = 1.128;

  private static final double D4 = 3.267;

  /**
   * Limits from values taken while all was well.
   *
   * @param values at least 2, finite
   */
  public static IndividualsChart of(double... values) {
    requireFinite(values, 2);
    double ranges = 0;
    for (int i = 1; i < values.length; i++) {
      ranges += Math.abs(values[i] - values[i - 1]);
    }
    return new IndividualsChart(
        Arrays.stream(values).average().orElseThrow(), ranges / (values.length - 1));
  }

  static void requireFinite(double[] values, int atLeast) {
    if (values.length < atLeast) {
      throw new IllegalArgumentException(
          values.length + " values: a control chart needs at least " + atLeast);
    }
    for (int i = 0; i < values.length; i++) {
      if (!Double.isFinite(values[i])) {
        throw new IllegalArgumentException("value " + (i + 1) + " is " + values[i]);
      }
    }
  }

  /** Standard deviation estimated from the moving ranges, MR̄/d2. */
  public double sigma() {
    return meanMovingRange / D2;
  }

  /** Upper control limit of the values. */
  public double upper() {
    return centre + 3 * sigma();
  }

  /** Lower control limit of the values. */
  public double lower() {
    return centre - 3 * sigma();
  }

  /** Upper control limit of the moving ranges. */
  public double upperRange() {
    return D4 * meanMovingRange;
  }

  /** Whether {@code value} lies within the limits. */
  public boolean holds(double value) {
    return value >= lower() && value <= upper();
  }

  /** Places of the values outside the limits, from 0. */
  public List<Integer> signals(double... values) {
    List<Integer> outside = new ArrayList<>();
    for (int i = 0; i < values.length; i++) {
      if (!holds(values[i])) {
        outside.add(i);
      }
    }
    return List.copyOf(outside);
  }
}
