package snick.cut;

import java.util.Optional;

/** Posteriors of the force at the break under several priors, averaged by their evidence. */
final class Mixture {
  /**
   * Logarithm of the weight that even loading gets on a brief ramp: above what chance gives uneven
   * priors there, below what true slips bring.
   */
  private static final double EVEN_LEAN_LOG = 8;

  /** For the filter and the onset, which are taken as found and not averaged over. */
  private static final double BRIEF_WIDENING = 1.25;

  private record Part(
      double logEvidence, boolean even, double mean, double variance, double slope, double tremor) {
    double log(double leanLog) {
      return logEvidence + (even ? leanLog : 0);
    }
  }

  private final double time;
  private final double scale;
  private final Part[] parts = new Part[Unevenness.LADDER.size()];
  private int size;
  private double most = Double.NEGATIVE_INFINITY;

  /**
   * An empty mixture.
   *
   * @param time instant of the break, periods
   * @param scale counts per unit of what is added
   */
  Mixture(double time, double scale) {
    this.time = time;
    this.scale = scale;
  }

  /** Adds a part; at most one for each step of the ladder. */
  void add(double logEvidence, Unevenness unevenness, CrossingWeight force, double slope) {
    boolean even = unevenness.logPrior() > 0;
    double tremor = unevenness.tremorNoises();
    parts[size++] = new Part(logEvidence, even, force.mean(), force.variance(), slope, tremor);
    most = Math.max(most, logEvidence);
  }

  /**
   * The average. A brief ramp has too few samples to tell tremor from a change of slope: there the
   * mean leans to even loading, and the uncertainty stays that of the whole mixture, widened.
   */
  Optional<BreakEstimate> estimate(double unseenTremor, boolean brief) {
    if (!(most > Double.NEGATIVE_INFINITY)) {
      return Optional.empty();
    }
    Moments whole = moments(0);
    Moments kept = brief ? moments(EVEN_LEAN_LOG) : whole;
    double own = Math.sqrt(whole.variance()) * (brief ? BRIEF_WIDENING : 1);
    double u = Math.hypot(scale * Math.hypot(own, kept.mean() - whole.mean()), unseenTremor);
    return Optional.of(
        new BreakEstimate(scale * kept.mean(), u, time, scale * kept.slope(), whole.tremor()));
  }

  private record Moments(double mean, double variance, double slope, double tremor) {}

  private Moments moments(double leanLog) {
    double highest = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < size; i++) {
      highest = Math.max(highest, parts[i].log(leanLog));
    }
    double weights = 0;
    double mean = 0;
    double second = 0;
    double slope = 0;
    double tremor = 0;
    for (int i = 0; i < size; i++) {
      Part part = parts[i];
      double weight = Math.exp(part.log(leanLog) - highest);
      weights += weight;
      mean += weight * part.mean();
      second += weight * (part.variance() + part.mean() * part.mean());
      slope += weight * part.slope();
      tremor += weight * part.tremor();
    }
    mean /= weights;
    double variance = Math.max(0, second / weights - mean * mean);
    return new Moments(mean, variance, slope / weights, tremor / weights);
  }
}
