package snick.force.check;

import java.util.ArrayList;
import java.util.List;

/**
 * Control chart of exponentially weighted moving averages (NIST/SEMATECH e-Handbook, 6.3.2.4): slow
 * drift shows here before single values leave their limits.
 *
 * @param target value at which the average starts
 * @param sigma standard deviation of one value, above 0
 * @param lambda weight of the newest value, above 0 and at most 1
 * @param width limits in standard deviations of the average, above 0
 */
public record EwmaChart(double target, double sigma, double lambda, double width) {
  /** Weight and width of the handbook's example, lambda 0.3 and 3 standard deviations. */
  public static EwmaChart usual(double target, double sigma) {
    return new EwmaChart(target, sigma, 0.3, 3);
  }

  public EwmaChart {
    if (!Double.isFinite(target) || !(sigma > 0) || !(lambda > 0 && lambda <= 1) || !(width > 0)) {
      throw new IllegalArgumentException(
          ("chart about %s with sigma %s, lambda %s, width %s: sigma and width above 0, lambda in"
                  + " 0 to 1")
              .formatted(target, sigma, lambda, width));
    }
  }

  /**
   * One point of the chart.
   *
   * @param average weighted average up to this value
   * @param lower exact lower limit at this point
   * @param upper exact upper limit at this point
   */
  public record Point(double average, double lower, double upper) {
    /** Whether the average lies within its limits. */
    public boolean within() {
      return average >= lower && average <= upper;
    }
  }

  /** The chart of {@code values} in order of time. */
  public List<Point> chart(double... values) {
    IndividualsChart.requireFinite(values, 1);
    List<Point> points = new ArrayList<>();
    double average = target;
    double forgotten = 1;
    for (double value : values) {
      average = lambda * value + (1 - lambda) * average;
      forgotten *= (1 - lambda) * (1 - lambda);
      double half = width * sigma * Math.sqrt(lambda / (2 - lambda) * (1 - forgotten));
      points.add(new Point(average, target - half, target + half));
    }
    return List.copyOf(points);
  }
}
