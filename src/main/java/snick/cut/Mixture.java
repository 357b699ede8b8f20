package snick.cut;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/** Posteriors of the force at the break under several priors, averaged by their evidence. */
final class Mixture {
  private record Part(
      double logEvidence, double mean, double variance, double slope, double tremor) {}

  private final LoadingBasis basis;
  private final double time;
  private final double[] force;
  private final double[] rate;
  private final List<Part> parts = new ArrayList<>();
  private double most = Double.NEGATIVE_INFINITY;

  Mixture(LoadingBasis basis, double time) {
    this.basis = basis;
    this.time = time;
    this.force = new double[basis.size()];
    this.rate = new double[basis.size()];
    basis.at(time, force);
    basis.slopeAt(time, rate);
  }

  void add(NormalEquations.Posterior p, Unevenness unevenness) {
    double[] v = p.whitened(rate);
    double r = p.mean(v);
    force[basis.shift()] = r;
    double[] w = p.whitened(force);
    CrossingWeight weighed =
        CrossingWeight.of(
            p.mean(w),
            NormalEquations.dot(w, w),
            r,
            NormalEquations.dot(v, v),
            NormalEquations.dot(w, v));
    double slope = p.coefficients()[1] / basis.scale();
    double log = p.logEvidence() + unevenness.logPrior();
    parts.add(new Part(log, weighed.mean(), weighed.variance(), slope, unevenness.tremorCounts()));
    most = Math.max(most, log);
  }

  Optional<BreakEstimate> estimate(double unseenTremor) {
    if (!(most > Double.NEGATIVE_INFINITY)) {
      return Optional.empty();
    }
    double weights = 0;
    double mean = 0;
    double second = 0;
    double slope = 0;
    double tremor = 0;
    for (Part part : parts) {
      double weight = Math.exp(part.logEvidence() - most);
      weights += weight;
      mean += weight * part.mean();
      second += weight * (part.variance() + part.mean() * part.mean());
      slope += weight * part.slope();
      tremor += weight * part.tremor();
    }
    mean /= weights;
    tremor /= weights;
    double variance = Math.max(0, second / weights - mean * mean);
    double u = Math.sqrt(variance + unseenTremor * unseenTremor);
    return Optional.of(
        new BreakEstimate(mean, u, time, slope / weights, tremor, OptionalInt.empty()));
  }
}
