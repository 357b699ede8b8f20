package snick.cut;

import java.util.ArrayList;
import java.util.List;

/** Posteriors of the force at the break under several priors, averaged by their evidence. */
final class Mixture {
  private record Part(
      double logEvidence, double mean, double variance, double slope, double tremor) {}

  private final List<Part> parts = new ArrayList<>();
  private double most = Double.NEGATIVE_INFINITY;

  void add(
      NormalEquations.Posterior p,
      double[] force,
      double[] rate,
      Unevenness unevenness,
      LoadingBasis basis) {
    double[] w = p.whitened(force);
    double[] v = p.whitened(rate);
    double r = p.mean(v);
    w = shifted(p, force, r, basis);
    CrossingWeight weighed =
        CrossingWeight.of(
            p.mean(w),
            NormalEquations.dot(w, w),
            r,
            NormalEquations.dot(v, v),
            NormalEquations.dot(w, v));
    double slope = p.coefficients()[1] / basis.scale();
    parts.add(
        new Part(
            p.logEvidence(),
            weighed.mean(),
            weighed.variance(),
            slope,
            unevenness.tremorCounts()));
    most = Math.max(most, p.logEvidence());
  }

  /** The force at the shifted break: a shift moves it along the loading. */
  private static double[] shifted(
      NormalEquations.Posterior p, double[] force, double rate, LoadingBasis basis) {
    double[] form = force.clone();
    form[basis.shift()] = rate;
    return p.whitened(form);
  }

  BreakEstimate estimate(double time, double noise) {
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
    double variance = Math.max(0, second / weights - mean * mean);
    return new BreakEstimate(
        mean, Math.sqrt(variance), time, slope / weights, tremor / weights > 2 * noise, 0);
  }
}
