package snick.verdict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.statistics.descriptive.Mean;

/**
 * Control chart of a reference edge with one filament lot: individual values with moving ranges of
 * two, and an exponentially weighted mean (NIST/SEMATECH e-Handbook 6.3.2.2 and 6.3.2.4). The exact
 * d₂ = 2/√π is used, not its table value 1.128.
 *
 * @param meanGf centre line, gf
 * @param sigmaGf mean moving range over d₂, gf
 * @param limitsGf three sigma about the mean, gf
 * @param movingRangeLimitGf upper limit of the moving range, gf
 * @param ewmaGf weighted means after each value with weight 0.3, gf
 * @param ewmaLimitsGf their long-run limits, three sigma, gf
 * @param signals values that stand outside a limit, in order
 */
public record ReferenceChart(
    double meanGf,
    double sigmaGf,
    Interval limitsGf,
    double movingRangeLimitGf,
    List<Double> ewmaGf,
    Interval ewmaLimitsGf,
    List<Signal> signals) {
  /** Share of a normal distribution within three sigma. */
  private static final double THREE_SIGMA = 0.9973002039367398;

  private static final double D2 = 2 / Math.sqrt(Math.PI);
  private static final double D3 = Math.sqrt(2 - 4 / Math.PI);
  private static final double WEIGHT = 0.3;
  private static final int LEAST = 8;

  /** Which limit was crossed. */
  public enum Limit {
    VALUE,
    MOVING_RANGE,
    WEIGHTED_MEAN
  }

  /**
   * A value outside a limit.
   *
   * @param index place of the value, from 0
   * @param limit which limit
   */
  public record Signal(int index, Limit limit) {}

  public ReferenceChart {
    ewmaGf = List.copyOf(ewmaGf);
    signals = List.copyOf(signals);
  }

  /**
   * Chart of {@code readings} in the order made, which set their own limits.
   *
   * @throws NotComparable with fewer than 8 readings
   */
  public static ReferenceChart of(Readings readings) {
    double[] x = readings.atLeast(LEAST).gramForce();
    double[] ranges = movingRanges(x);
    double meanRange = Mean.of(ranges).getAsDouble();
    return of(x, readings.meanGf(), meanRange / D2);
  }

  /**
   * Chart with limits set earlier.
   *
   * @param x values in the order made, gf
   * @param meanGf centre, gf
   * @param sigmaGf standard deviation of single values, gf
   */
  static ReferenceChart of(double[] x, double meanGf, double sigmaGf) {
    double ewmaSigma = sigmaGf * Math.sqrt(WEIGHT / (2 - WEIGHT));
    Interval limits = threeSigma(meanGf, sigmaGf);
    Interval ewmaLimits = threeSigma(meanGf, ewmaSigma);
    double rangeLimit = (D2 + 3 * D3) * sigmaGf;
    double[] ranges = movingRanges(x);
    List<Double> ewma = new ArrayList<>();
    List<Signal> signals = new ArrayList<>();
    double weighted = meanGf;
    for (int i = 0; i < x.length; i++) {
      weighted = WEIGHT * x[i] + (1 - WEIGHT) * weighted;
      ewma.add(weighted);
      signal(signals, i, Limit.VALUE, !limits.holds(x[i]));
      signal(signals, i, Limit.MOVING_RANGE, i > 0 && ranges[i - 1] > rangeLimit);
      signal(signals, i, Limit.WEIGHTED_MEAN, !ewmaLimits.holds(weighted));
    }
    return new ReferenceChart(meanGf, sigmaGf, limits, rangeLimit, ewma, ewmaLimits, signals);
  }

  private static Interval threeSigma(double centre, double sigma) {
    return new Interval(centre - 3 * sigma, centre + 3 * sigma, THREE_SIGMA);
  }

  private static void signal(List<Signal> signals, int index, Limit limit, boolean outside) {
    if (outside) {
      signals.add(new Signal(index, limit));
    }
  }

  private static double[] movingRanges(double[] x) {
    double[] ranges = new double[x.length - 1];
    Arrays.setAll(ranges, i -> Math.abs(x[i + 1] - x[i]));
    return ranges;
  }
}
