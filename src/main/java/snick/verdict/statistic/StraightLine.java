package snick.verdict.statistic;

import org.apache.commons.statistics.descriptive.Mean;

/**
 * Least-squares straight line y = a + b·x, reckoned about the mean of x.
 *
 * @param intercept a
 * @param slope b
 * @param interceptVariance variance of a
 * @param slopeVariance variance of b
 * @param covariance of a and b
 * @param residualSd residual standard deviation
 * @param degreesOfFreedom n − 2
 */
public record StraightLine(
    double intercept,
    double slope,
    double interceptVariance,
    double slopeVariance,
    double covariance,
    double residualSd,
    int degreesOfFreedom) {

  /** Line through 3 points or more, whose x are not all equal. */
  public static StraightLine through(double[] x, double[] y) {
    double meanX = Mean.of(x).getAsDouble();
    double meanY = Mean.of(y).getAsDouble();
    double sxx = 0;
    double sxy = 0;
    for (int i = 0; i < x.length; i++) {
      sxx += (x[i] - meanX) * (x[i] - meanX);
      sxy += (x[i] - meanX) * (y[i] - meanY);
    }
    double slope = sxy / sxx;
    double squares = 0;
    for (int i = 0; i < x.length; i++) {
      double residual = y[i] - meanY - slope * (x[i] - meanX);
      squares += residual * residual;
    }
    double variance = squares / (x.length - 2);
    return new StraightLine(
        meanY - slope * meanX,
        slope,
        variance * (1.0 / x.length + meanX * meanX / sxx),
        variance / sxx,
        -variance * meanX / sxx,
        Math.sqrt(variance),
        x.length - 2);
  }
}
