package snick.cut;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * Force at the break of a loading too short for {@link RampEstimator}. For each filter the break
 * and the onset are moved to where the samples put them (Gauss–Newton); the filter of largest
 * evidence is taken; the strengths of tremor and wander are averaged over by their evidence.
 */
final class BriefEstimator {
  /** Enough to rank the filters; those that stay are climbed on. */
  private static final int FIRST_TURNS = 3;

  /** With moves bounded to 0.4 periods, seven reach across the filter's length. */
  private static final int TURNS = 7;

  /** A filter and its two neighbours in width. */
  private static final int CLIMBED_TO_THE_TOP = 3;

  /** Longer moves leave the reach of the linearised filter, periods. */
  private static final double LARGEST_MOVE = 0.4;

  /** Moves the force by 0.02 % at most on a ramp of ten periods: below any uncertainty here. */
  private static final double SMALLEST_MOVE = 0.002;

  /** While climbing, as much unevenness as a hand usually shows, as a share of the force. */
  private static final double SOME_UNEVENNESS = 0.01;

  /** The rms of a right model passes this in fewer than one case of a hundred. */
  private static final double SPIKE_MISFIT = 1.5;

  /** Stricter than to look for one: a brief ramp fits many things with a reading fewer. */
  private static final double SPIKE_GONE_MISFIT = 1.2;

  /** Logarithm of the evidence it must bring: a reading eight deviations off (8²/2). */
  private static final double SPIKE_EVIDENCE = 30;

  private final BriefModel model;
  private final Place first;

  private BriefEstimator(BriefModel model, Place first) {
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
    BriefModel model = BriefModel.of(s, onset, fall, after, noise, line.breakTime());
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
    List<Place> places = new ArrayList<>();
    for (Kernel kernel : Kernel.FAMILY) {
      climb(model.start(first.with(kernel)), prior, FIRST_TURNS).ifPresent(places::add);
    }
    places.sort(Comparator.comparingDouble(Place::logEvidence).reversed());
    return places.stream()
        .limit(CLIMBED_TO_THE_TOP)
        .flatMap(place -> climb(place, prior, TURNS).stream())
        .max(Comparator.comparingDouble(Place::logEvidence));
  }

  /** Moves the break to where the samples put it. */
  private Optional<Place> climb(Place from, double[] prior, int turns) {
    Place place = from;
    for (int turn = 0; turn < turns; turn++) {
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
    for (Unevenness u : Unevenness.LADDER) {
      equations
          .posterior(model.priorVariances(u))
          .ifPresent(
              p -> {
                double slope = p.coefficients()[1] / model.basis().scale();
                mixture.add(p.logEvidence() + u.logPrior(), u, crossing(p, place), slope);
              });
    }
    return mixture
        .estimate(model.unseenTremorCounts(), true)
        .map(e -> doubted(e, place, equations));
  }

  /**
   * So few samples cannot show that the hand is still: whatever they say, the uncertainty allows
   * for tremor of the usual strength.
   */
  private BreakEstimate doubted(BreakEstimate e, Place place, NormalEquations equations) {
    double usual = Unevenness.USUAL_TREMOR_SHARE * model.height() / model.noise();
    return equations
        .posterior(model.priorVariances(new Unevenness(usual, 0, 0)))
        .map(p -> crossing(p, place))
        .map(
            w -> {
              double off = w.mean() - e.forceCounts();
              double u = Math.sqrt(w.variance() + off * off);
              return e.withUncertainty(e.forceCounts(), Math.hypot(e.uncertaintyCounts(), u));
            })
        .orElse(e);
  }

  private CrossingWeight crossing(NormalEquations.Posterior p, Place place) {
    double[] rate = new double[model.basis().size()];
    double[] force = new double[model.basis().size()];
    model.basis().slopeAt(place.time(), rate);
    model.basis().at(place.time(), force);
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
