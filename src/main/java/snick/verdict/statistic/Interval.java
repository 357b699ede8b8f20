package snick.verdict.statistic;

/**
 * A confidence interval; its unit is that of the field that holds it.
 *
 * @param low lower limit
 * @param high upper limit, not below the lower
 * @param confidence coverage, from 0 to 1
 */
public record Interval(double low, double high, double confidence) {
  public Interval {
    if (!(low <= high) || !(confidence >= 0 && confidence <= 1)) {
      throw new IllegalArgumentException(
          "interval from " + low + " to " + high + " with confidence " + confidence);
    }
  }

  /** Whether {@code value} lies in it, limits included. */
  public boolean holds(double value) {
    return value >= low && value <= high;
  }
}
