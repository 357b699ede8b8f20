package snick.force.fit;

import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.apache.commons.statistics.distribution.FDistribution;

/**
 * Lack-of-fit test against the scatter of replicate points (NIST/SEMATECH e-Handbook of Statistical
 * Methods, 4.4.4.6): is the curve's shape wrong by more than repeated readings differ?
 *
 * @param f mean square of lack of fit over mean square of pure error
 * @param lackDegreesOfFreedom distinct loads less coefficients
 * @param pureDegreesOfFreedom points less distinct loads
 * @param pValue probability of an f at least as large if the shape is right
 * @param pureErrorSd standard deviation of replicates, in units of the reading
 */
public record LackOfFit(
    double f,
    int lackDegreesOfFreedom,
    int pureDegreesOfFreedom,
    double pValue,
    double pureErrorSd) {

  /** The test for a fit; empty without replicates that differ, or without spare loads. */
  public static Optional<LackOfFit> of(PolynomialFit fit) {
    Map<Double, Group> groups = groups(fit);
    int lack = groups.size() - fit.form().parameters();
    int pure = fit.loads().length - groups.size();
    double pureSquares = groups.values().stream().mapToDouble(g -> g.squares).sum();
    if (lack < 1 || pure < 1 || !(pureSquares > 0)) {
      return Optional.empty();
    }
    double lackSquares = Math.max(0, fit.residualSumOfSquares() - pureSquares);
    double f = (lackSquares / lack) / (pureSquares / pure);
    return Optional.of(
        new LackOfFit(
            f,
            lack,
            pure,
            FDistribution.of(lack, pure).survivalProbability(f),
            Math.sqrt(pureSquares / pure)));
  }

  /** Weighted mean and sum of squares about it, updated point by point (West 1979). */
  private static final class Group {
    private double weight;
    private double mean;
    private double squares;

    void add(double value, double w) {
      weight += w;
      double away = value - mean;
      mean += away * w / weight;
      squares += w * away * (value - mean);
    }
  }

  private static Map<Double, Group> groups(PolynomialFit fit) {
    Map<Double, Group> groups = new TreeMap<>();
    double[] loads = fit.loads();
    double[] readings = fit.readings();
    for (int i = 0; i < loads.length; i++) {
      groups.computeIfAbsent(loads[i] + 0.0, load -> new Group()).add(readings[i], fit.weight(i));
    }
    return groups;
  }
}
