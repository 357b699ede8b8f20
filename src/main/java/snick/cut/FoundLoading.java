package snick.cut;

import java.util.EnumSet;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import snick.cut.estimate.BreakEstimator;
import snick.cut.estimate.Budget;
import snick.cut.estimate.ForceAtBreak;
import snick.cut.estimate.Loading;
import snick.cut.response.Response;

/**
 * An event that was a loading, read through; its force is still to be estimated. Holds all that the
 * cut needs of the event, which goes on to the next. Used by one thread after the other.
 */
final class FoundLoading {
  private static final int FEW_RAMP_SAMPLES = 8;
  private static final double LARGE_CORRECTION = 0.1;
  private static final double LARGE_UNCERTAINTY = 0.02;

  /** A hand's motion that makes at least this of the force uncertain is told. */
  private static final double UNEVEN_SHARE = 0.005;

  private static final double MOVED_NOISES = 4;

  /** A next loading has begun at most so long before the detector is sure of it, ns. */
  private static final double UNSURE_RISE_NANOS = 80e6;

  private final int number;
  private final Outcome outcome;
  private final EventReading r;
  private final double triggerCounts;
  private final double levelAfterCounts;
  private final Set<Flag> flags = EnumSet.noneOf(Flag.class);
  private final boolean anyOverrange;
  private final int restEnd;
  private final Trace trace;
  private Response response = Response.unknown();

  FoundLoading(Event event, EventReading reading, Outcome outcome, int number) {
    this.number = number;
    this.outcome = outcome;
    r = reading;
    triggerCounts = event.before().rest().bandCounts();
    levelAfterCounts = event.levelAfterCounts();
    anyOverrange = event.anyOverrange();
    restEnd = restEnd(event);
    trace = new Trace(event);
    flag(Flag.ZERO_UNSURE, !event.before().rest().sure() || r.zero.crept());
    flag(Flag.GAP_INSIDE, !event.gaps().loaded().isEmpty());
    double moved = Math.abs(levelAfterCounts - r.zero.counts());
    flag(Flag.ZERO_MOVED, event.fallen() && moved > MOVED_NOISES * r.noise);
  }

  /** One past the last reading that the next loading cannot have touched. */
  private int restEnd(Event event) {
    boolean loadedAgain = event.step() == Event.Step.LOADED_AGAIN;
    return r.s.size() - (loadedAgain ? (int) Math.ceil(UNSURE_RISE_NANOS / r.s.periodNanos) : 0);
  }

  /** Tells what is known of the rig, before its cut is asked for. */
  void know(Response known) {
    response = known;
  }

  /** Of which events, counted from 1. */
  int number() {
    return number;
  }

  /** Sense of the loading. */
  int polarity() {
    return r.polarity;
  }

  /** Whether the filament parted. */
  boolean parted() {
    return outcome == Outcome.SEVERED || outcome == Outcome.PARTED_IN_STEPS;
  }

  /** Whether it parted at once. */
  boolean severed() {
    return outcome == Outcome.SEVERED;
  }

  /** How many samples it holds. */
  int samples() {
    return trace.size();
  }

  /** The cut, its force estimated; to be asked once. */
  Cut cut(BreakEstimator estimator) {
    Optional<ForceAtBreak> estimate = estimate(estimator);
    int dips = new Dips(r.s, r.onset, r.peak, triggerCounts).count();
    OptionalLong breakNanos =
        estimate.isPresent()
            ? OptionalLong.of(r.s.nanosAtSeconds(estimate.get().instantSeconds()))
            : OptionalLong.empty();
    addFlags(estimate, dips);
    return new Cut(
        number,
        new CutFigures(
            outcome,
            r.polarity,
            r.s.nanosAt(r.s.time[r.onset]),
            breakNanos,
            Optional.of(peak(estimate)),
            shape(estimate, dips),
            new CutFigures.Rest(r.zero.counts(), levelAfterCounts, r.noise),
            flags),
        trace,
        response);
  }

  private Optional<ForceAtBreak> estimate(BreakEstimator estimator) {
    if (r.fall.isEmpty()) {
      return Optional.empty();
    }
    Fall fall = r.fall.get();
    return switch (outcome) {
      case SEVERED ->
          Optional.of(estimate(estimator, fall, r.after, Math.max(fall.bottom() + 1, restEnd)));
      case PARTED_IN_STEPS ->
          Optional.of(
              estimate(
                  estimator,
                  fall.firstStep(),
                  r.s.x[fall.firstTo()],
                  fall.firstStep().bottom() + 1));
      case RELEASED, OVERRANGE, TRUNCATED, DISTURBED -> Optional.empty();
    };
  }

  private ForceAtBreak estimate(BreakEstimator estimator, Fall fall, double after, int end) {
    return estimator.estimate(
        new Loading(
            r.s.seconds(),
            r.s.x,
            r.s.usable,
            r.s.periodNanos / 1e9,
            r.noise,
            r.onset,
            new Loading.Ending(
                fall.top(),
                fall.bottom(),
                fall.periods() * r.s.periodNanos / 1e9,
                fixtureLagSeconds(),
                after),
            end));
  }

  private double fixtureLagSeconds() {
    return response
        .ring()
        .map(ring -> ring.lagSeconds() * StrictMath.exp(ring.dampingLogUncertainty()))
        .orElse(Double.POSITIVE_INFINITY);
  }

  private Peak peak(Optional<ForceAtBreak> estimate) {
    double most = r.observedMax();
    double zero = r.zero.uncertaintyCounts();
    if (estimate.isEmpty()) {
      return new Peak(most, most, Math.hypot(r.noise, zero));
    }
    ForceAtBreak e = estimate.get();
    Budget budget = e.budget().withZero(zero);
    return new Peak(most, e.forceCounts(), budget.standardUncertaintyCounts(), Optional.of(budget));
  }

  private CutFigures.Shape shape(Optional<ForceAtBreak> estimate, int dips) {
    double slope =
        estimate
            .map(ForceAtBreak::loadingRateCountsPerSecond)
            .orElseGet(r::meanSlopeCountsPerSecond);
    double fall = r.fall.isPresent() ? r.fall.get().periods() : 0;
    return new CutFigures.Shape(slope, Math.round(fall * r.periodNanos), dips, r.peak - r.onset);
  }

  /** Those that ask for the estimate, which may have left out a spike. */
  private void addFlags(Optional<ForceAtBreak> estimate, int dips) {
    flag(Flag.SPIKE_NEAR_PEAK, !anyOverrange && r.spikeNearPeak());
    flag(Flag.DIPS_BEFORE_PEAK, dips > 0);
    if (estimate.isPresent()) {
      ForceAtBreak e = estimate.get();
      flag(Flag.TOO_FAST_FOR_RATE, tooFast(e, r.observedMax()));
      flag(Flag.UNEVEN_LOADING, uneven(e));
    }
  }

  private boolean tooFast(ForceAtBreak e, double observedMax) {
    boolean fewSamples = r.peak - r.onset < FEW_RAMP_SAMPLES;
    boolean farFromMaximum =
        !(Math.abs(e.forceCounts() - observedMax) < LARGE_CORRECTION * e.forceCounts());
    Budget b = e.budget();
    boolean unsure = b.standardUncertaintyCounts() > LARGE_UNCERTAINTY * e.forceCounts();
    boolean bySpeed = b.speedCounts() > b.handCounts();
    return fewSamples || farFromMaximum || (unsure && bySpeed);
  }

  private static boolean uneven(ForceAtBreak e) {
    Budget b = e.budget();
    return b.handCounts() > UNEVEN_SHARE * e.forceCounts() && b.handCounts() > b.speedCounts();
  }

  private void flag(Flag flag, boolean holds) {
    if (holds) {
      flags.add(flag);
    }
  }
}
