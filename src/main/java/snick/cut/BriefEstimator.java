package snick.cut;

import java.util.Optional;

/**
 * Force at the break from the samples around it. The loading (line, wander, tremor) ends at the
 * break; a filter of the family spreads that over a few samples. For each filter the break is moved
 * to where the samples put it (Gauss–Newton); the filter of largest evidence is taken; the
 * strengths of tremor and wander are averaged over by their evidence (Bayesian linear regression,
 * Bishop 2006, sections 3.3 to 3.5, from memory).
 */
final class BriefEstimator {
  private static final int TURNS = 10;
  private static final double LARGEST_MOVE = 0.4;
  private static final double SMALLEST_MOVE = 0.002;
  private static final double SOME_UNEVENNESS = 0.01;
  private static final double SPIKE_MISFIT = 1.5;
  private static final double SPIKE_GONE_MISFIT = 1.2;
  private static final double SPIKE_EVIDENCE = 30;

  private final LoadingModel model;
  private final Place first;

  private BriefEstimator(LoadingModel model, Place first) {
    this.model = model;
    this.first = first;
  }

  /** The estimate for a loading that begins at sample {@code onset} and ends with {@code fall}. */
  static Optional<BreakEstimate> estimate(
      Samples s, int onset, Fall fall, double after, double noise, BreakEstimate line) {
    BriefEstimator whole = over(s, onset, fall, after, noise, line);
    Optional<Place> best = whole.best();
    if (best.isPresent() && whole.model.misfit(best.get()) > SPIKE_MISFIT) {
      Optional<BreakEstimate> better = withoutOne(s, onset, fall, after, noise, line, best.get());
      if (better.isPresent()) {
        return better;
      }
    }
    return best.flatMap(whole::average);
  }

  private static BriefEstimator over(
      Samples s, int onset, Fall fall, double after, double noise, BreakEstimate line) {
    LoadingModel model = LoadingModel.of(s, onset, fall, after, noise, line.breakTime());
    Place first = new Place(Kernel.FAMILY.get(0), line.breakTime(), model.height(), 0, 0);
    return new BriefEstimator(model, first);
  }

  /** If leaving out one sample near the fall makes the rest fit, that sample was a spike. */
  private static Optional<BreakEstimate> withoutOne(
      Samples s, int onset, Fall fall, double after, double noise, BreakEstimate line, Place all) {
    Optional<BreakEstimate> result = Optional.empty();
    double most = all.logEvidence() + SPIKE_EVIDENCE;
    int spike = 0;
    int to = Math.min(s.size(), fall.bottom() + 4);
    for (int i = Math.max(0, fall.top() - 4); i < to; i++) {
      if (!s.usable[i]) {
        continue;
      }
      s.usable[i] = false;
      BriefEstimator part = over(s, onset, fall, after, noise, line);
      Optional<Place> best = part.best();
      if (best.isPresent()
          && best.get().logEvidence() > most
          && part.model.misfit(best.get()) < SPIKE_GONE_MISFIT) {
        most = best.get().logEvidence();
        spike = i;
        result = part.average(best.get());
      }
      s.usable[i] = true;
    }
    if (result.isPresent()) {
      s.usable[spike] = false;
    }
    return result;
  }

  private Optional<Place> best() {
    double some = SOME_UNEVENNESS * model.height() / model.noise();
    double[] prior = model.priorVariances(new Unevenness(some, some, 0));
    Optional<Place> best = Optional.empty();
    for (Kernel kernel : Kernel.FAMILY) {
      Optional<Place> place = climb(model.start(first.with(kernel)), prior);
      if (place.isPresent()
          && (best.isEmpty() || place.get().logEvidence() > best.get().logEvidence())) {
        best = place;
      }
    }
    return best;
  }

  /** Moves the break to where the samples put it. */
  private Optional<Place> climb(Place from, double[] prior) {
    Place place = from;
    for (int turn = 0; turn < TURNS; turn++) {
      Optional<NormalEquations.Posterior> posterior = model.equations(place, 1).posterior(prior);
      if (posterior.isEmpty()) {
        return Optional.empty();
      }
      Place next = model.moved(place, posterior.get(), LARGEST_MOVE);
      double move =
          Math.max(Math.abs(next.time() - place.time()), Math.abs(next.onset() - place.onset()));
      place = next;
      if (move < SMALLEST_MOVE) {
        break;
      }
    }
    return Optional.of(place);
  }

  private Optional<BreakEstimate> average(Place place) {
    double misfit = model.misfit(place);
    NormalEquations equations = model.equations(place, misfit);
    Mixture mixture = new Mixture(place.time(), 1);
    double[] rate = new double[model.basis().size()];
    double[] force = new double[model.basis().size()];
    for (Unevenness u : Unevenness.LADDER) {
      equations
          .posterior(model.priorVariances(u))
          .ifPresent(
              p -> {
                model.basis().slopeAt(place.time(), rate);
                model.basis().at(place.time(), force);
                CrossingWeight weight = crossing(p, rate, force);
                double slope = p.coefficients()[1] / model.basis().scale();
                mixture.add(p.logEvidence() + u.logPrior(), u, weight, slope);
              });
    }
    return mixture.estimate(model.unseenTremorCounts(), model.brief());
  }

  private CrossingWeight crossing(NormalEquations.Posterior p, double[] rate, double[] force) {
    double[] v = p.whitened(rate);
    double r = p.mean(v);
    force[model.basis().shift()] = r;
    double[] w = p.whitened(force);
    return CrossingWeight.of(
        p.mean(w),
        NormalEquations.dot(w, w),
        r,
        NormalEquations.dot(v, v),
        NormalEquations.dot(w, v));
  }
}
