package snick.cut;

import java.util.Optional;

/**
 * Force at the break of a loading with enough readings before the fall. The loading (line, wander,
 * tremor) ends at the break; a filter of the family spreads that over a few samples. The early
 * readings tell how the loading goes on; the filter and the break are those that explain the late
 * readings best; the strengths of tremor and wander are averaged over by their evidence (Bayesian
 * linear regression, Bishop 2006, sections 3.3 to 3.5, from memory). One thread.
 */
final class RampEstimator {
  /** Below, a line with tremor and wander has more coefficients than readings to tell them. */
  private static final int LEAST_EARLY = 8;

  /**
   * Readings up to so long after the bottom are fitted, periods: the longest filter of the family
   * falls from 10 % to nothing within that, and ringing is kept out.
   */
  private static final double AFTER_BOTTOM = 2.2;

  /** Never by chance: a rms of three deviations means that no filter of the family was at work. */
  private static final double POOR_MISFIT = 3;

  /**
   * A filter of four periods falls from 90 % to 10 % within two to three; the rest is no filter.
   */
  private static final double FILTER_FALL = 2;

  /** Above what a right model leaves, for looking for a spike costs twenty fits. */
  private static final double SPIKE_MISFIT = 1.5;

  /** With a reading or two fewer the rms of the rest scatters more than that of all. */
  private static final double SPIKE_GONE_MISFIT = 2;

  /**
   * Logarithm of the evidence that each reading left out must bring: a reading nine deviations off
   * (9²/2), far beyond noise.
   */
  private static final double SPIKE_EVIDENCE = 40;

  /** Spikes further back than this from the late readings hardly move the end of the loading. */
  private static final int EARLY_SPIKES = 4;

  /** Rates within 2 % share one design, which turns frequencies by as little. */
  private static final double RATE_CLASSES_PER_E = 50;

  private static final double USUAL_HERTZ = 80;

  private long rateClass = rateClass(USUAL_HERTZ);
  private RampDesign design = new RampDesign(rateOf(rateClass));

  /** Those of the rate before: that of another rig, or one at the edge of two classes. */
  private long otherRateClass = rateClass;

  private RampDesign other = design;

  /**
   * The estimate; empty if the ramp is too short for it.
   *
   * @param near where the break is looked for, periods
   * @param line the estimate by the loading line alone
   */
  Optional<BreakEstimate> estimate(
      Samples s,
      int onset,
      Fall fall,
      double after,
      double noise,
      double near,
      BreakEstimate line) {
    tune(1e9 / s.periodNanos);
    double reference = s.time[s.nearest(near)];
    double clean = s.time[onset] + 0.5 + Kernel.LONGEST_HALF;
    int early = (int) Math.floor(reference + RampWindow.LATE_FROM - clean);
    if (early < LEAST_EARLY) {
      return Optional.empty();
    }
    double height = s.x[s.largest(Math.max(0, fall.top() - 4), fall.top() + 1)];
    double last = s.time[fall.bottom()] + AFTER_BOTTOM;
    double ringing = s.ringing(near + Kernel.LONGEST_HALF, after, noise) / (noise * noise);
    RampWindow w = new RampWindow(s, reference, design.early(early), last, after, noise);
    Optional<Candidate> found = estimate(s, new RampSearch(design, w, ringing), near);
    if (found.isEmpty()) {
      return Optional.empty();
    }
    boolean poor = found.get().fit().misfit() > POOR_MISFIT;
    return poor ? Optional.of(vague(line, fall, height)) : found.get().average();
  }

  /** No filter of the family explains the fall: then the break lies somewhere in it. */
  private static BreakEstimate vague(BreakEstimate line, Fall fall, double height) {
    double beyondFilter = Math.max(1, fall.periods() - FILTER_FALL);
    double within = 0.5 * Math.abs(line.slopeCountsPerPeriod()) * beyondFilter;
    double correction = 0.5 * Math.abs(line.forceCounts() - height);
    double u = Math.hypot(Math.hypot(within, correction), line.uncertaintyCounts());
    return line.withUncertainty(line.forceCounts(), u);
  }

  private Optional<Candidate> estimate(Samples s, RampSearch whole, double near) {
    Optional<RampSearch.Fit> fit = whole.fit(near);
    if (fit.isEmpty()) {
      return Optional.empty();
    }
    Candidate candidate = new Candidate(whole, fit.get());
    if (candidate.mayHoldSpike()) {
      Optional<Without> spike = withoutSpike(whole, near, fit.get());
      if (spike.isPresent()) {
        spike.get().leaveOut(s);
        return Optional.of(new Candidate(spike.get().search(), spike.get().fit()));
      }
    }
    return Optional.of(candidate.strained() ? shortened(candidate, near) : candidate);
  }

  /**
   * Where the loading slipped, older readings mislead about the end: fewer are used if that makes
   * the late readings likelier.
   */
  private Candidate shortened(Candidate whole, double near) {
    Candidate best = whole;
    int early = whole.search().earlyReadings() / 2;
    for (; early >= LEAST_EARLY; early /= 2) {
      RampSearch search = whole.search().withEarly(design.early(early));
      Optional<RampSearch.Fit> fit = search.fit(near);
      if (fit.isPresent() && fit.get().look().logEvidence() > best.fit().look().logEvidence()) {
        best = new Candidate(search, fit.get());
      }
    }
    return best;
  }

  /** A search and what it found. */
  private record Candidate(RampSearch search, RampSearch.Fit fit) {
    Optional<BreakEstimate> average() {
      return search.average(fit);
    }

    /** No evidence is above zero, for the readings' own deviation is the noise at least. */
    boolean mayHoldSpike() {
      return fit.misfit() > SPIKE_MISFIT && fit.look().logEvidence() + SPIKE_EVIDENCE < 0;
    }

    /** Whether the loading is so uneven that it may have slipped. */
    boolean strained() {
      return fit.misfit() > SPIKE_MISFIT || fit.unevenness().strong();
    }
  }

  /** If leaving out one or two readings near the break makes the rest fit, those were a spike. */
  private Optional<Without> withoutSpike(RampSearch all, double near, RampSearch.Fit fit) {
    Optional<Without> best = Optional.empty();
    double most = fit.look().logEvidence();
    for (int length = 1; length <= Spikes.LONGEST; length++) {
      most += SPIKE_EVIDENCE;
      for (int from = -EARLY_SPIKES; from + length <= RampWindow.LATE; from++) {
        RampSearch search = all.without(from, length);
        Optional<RampSearch.Fit> part = search.fit(near);
        if (part.isPresent()
            && part.get().misfit() < SPIKE_GONE_MISFIT
            && part.get().look().logEvidence() > most) {
          most = part.get().look().logEvidence();
          best = Optional.of(new Without(from, length, search, part.get()));
        }
      }
    }
    return best;
  }

  /** A search without {@code length} readings from the late reading {@code from} on. */
  private record Without(int from, int length, RampSearch search, RampSearch.Fit fit) {
    void leaveOut(Samples s) {
      for (int i = from; i < from + length; i++) {
        s.usable[s.nearest(search.reference() + RampWindow.LATE_FROM + i)] = false;
      }
    }
  }

  private void tune(double rateHertz) {
    long wanted = rateClass(rateHertz);
    if (wanted != rateClass) {
      exchange();
    }
    if (wanted != rateClass) {
      rateClass = wanted;
      design = new RampDesign(rateOf(wanted));
    }
  }

  private void exchange() {
    long before = rateClass;
    rateClass = otherRateClass;
    otherRateClass = before;
    RampDesign last = design;
    design = other;
    other = last;
  }

  private static long rateClass(double rateHertz) {
    return Math.round(RATE_CLASSES_PER_E * Math.log(rateHertz));
  }

  private static double rateOf(long rateClass) {
    return Math.exp(rateClass / RATE_CLASSES_PER_E);
  }
}
