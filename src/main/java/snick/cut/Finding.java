package snick.cut;

import java.util.EnumSet;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import snick.cut.response.Response;

/**
 * An event that was a loading, read through; its force is still to be estimated. Holds all that the
 * cut needs of the event, which goes on to the next. Used by one thread after the other.
 */
final class Finding {
  private static final int FEW_RAMP_SAMPLES = 8;
  private static final double LARGE_CORRECTION = 0.1;
  private static final double LARGE_UNCERTAINTY = 0.02;

  /** Readings before the fall that the filter still joins to it. */
  private static final int TOP_SAMPLES = 2;

  private static final double UNEVEN_NOISES = 2;
  private static final double MOVED_NOISES = 4;

  private final int number;
  private final Outcome outcome;
  private final EventReading r;
  private final double triggerCounts;
  private final double levelAfterCounts;
  private final Set<Flag> flags = EnumSet.noneOf(Flag.class);
  private final boolean anyOverrange;
  private final Trace trace;
  private Response response = Response.unknown();

  Finding(Event event, EventReading reading, Outcome outcome, int number) {
    this.number = number;
    this.outcome = outcome;
    r = reading;
    triggerCounts = event.before().bandCounts();
    levelAfterCounts = event.levelAfterCounts();
    anyOverrange = event.anyOverrange();
    trace = new Trace(event.log(), event.allGaps());
    flag(Flag.ZERO_UNSURE, !event.before().sure() || r.zero.crept());
    flag(Flag.GAP_INSIDE, !event.gaps().isEmpty());
    flag(Flag.ZERO_MOVED, event.fallen() && Math.abs(r.after) > MOVED_NOISES * r.noise);
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

  /** How many samples it holds. */
  int samples() {
    return trace.size();
  }

  /** The cut, its force estimated; to be asked once. */
  Cut cut(BreakEstimator estimator) {
    Optional<BreakEstimate> estimate = estimate(estimator);
    int dips = new Dips(r.s, r.onset, r.peak, triggerCounts).count();
    OptionalLong breakNanos =
        estimate.isPresent()
            ? OptionalLong.of(r.s.nanosAt(estimate.get().breakTime()))
            : OptionalLong.empty();
    addFlags(estimate, dips);
    return new Cut(
        number,
        outcome,
        r.polarity,
        r.s.nanosAt(r.s.time[r.onset]),
        breakNanos,
        Optional.of(peak(estimate)),
        shape(estimate, dips),
        new Cut.Rest(r.zero.counts(), levelAfterCounts, r.noise),
        flags,
        trace,
        response);
  }

  private Optional<BreakEstimate> estimate(BreakEstimator estimator) {
    if (r.fall.isEmpty()) {
      return Optional.empty();
    }
    Fall fall = r.fall.get();
    return switch (outcome) {
      case SEVERED -> Optional.of(estimate(estimator, fall, r.after));
      case PARTED_IN_STEPS ->
          Optional.of(estimate(estimator, fall.firstStep(), r.s.x[fall.firstTo()]));
      case RELEASED, OVERRANGE, TRUNCATED, DISTURBED -> Optional.empty();
    };
  }

  private BreakEstimate estimate(BreakEstimator estimator, Fall fall, double after) {
    BreakEstimate line = LineEstimator.estimate(r.s, r.onset, fall, after, r.noise);
    BreakEstimate full = estimator.estimate(r.s, r.onset, fall, after, r.noise, line);
    int from = Math.max(r.onset, fall.top() - TOP_SAMPLES);
    double top = r.s.x[r.s.largest(from, fall.bottom() + 1)];
    return new Plausible(top, r.noise).of(full, line);
  }

  private Peak peak(Optional<BreakEstimate> estimate) {
    double most = r.observedMax();
    double zero = r.zero.uncertaintyCounts();
    if (estimate.isEmpty()) {
      return new Peak(most, most, Math.hypot(r.noise, zero));
    }
    BreakEstimate e = estimate.get();
    return new Peak(most, e.forceCounts(), Math.hypot(e.uncertaintyCounts(), zero));
  }

  private Cut.Shape shape(Optional<BreakEstimate> estimate, int dips) {
    double perPeriod = r.slopeBeforeFall(estimate);
    double fall = r.fall.isPresent() ? r.fall.get().periods() : 0;
    return new Cut.Shape(
        perPeriod / r.periodNanos * 1e9, Math.round(fall * r.periodNanos), dips, r.peak - r.onset);
  }

  /** Those that ask for the estimate, which may have left out a spike. */
  private void addFlags(Optional<BreakEstimate> estimate, int dips) {
    flag(Flag.SPIKE_NEAR_PEAK, !anyOverrange && r.spikeNearPeak());
    flag(Flag.DIPS_BEFORE_PEAK, dips > 0);
    if (estimate.isPresent()) {
      BreakEstimate e = estimate.get();
      flag(Flag.TOO_FAST_FOR_RATE, tooFast(e, r.observedMax()));
      flag(Flag.UNEVEN_LOADING, e.tremorNoises() > UNEVEN_NOISES);
    }
  }

  private boolean tooFast(BreakEstimate e, double observedMax) {
    boolean fewSamples = r.peak - r.onset < FEW_RAMP_SAMPLES;
    boolean farFromMaximum =
        !(Math.abs(e.forceCounts() - observedMax) < LARGE_CORRECTION * e.forceCounts());
    boolean unsure = e.uncertaintyCounts() > LARGE_UNCERTAINTY * e.forceCounts();
    return fewSamples || farFromMaximum || (unsure && Kernel.filterOutlastsTremor(r.periodNanos));
  }

  private void flag(Flag flag, boolean holds) {
    if (holds) {
      flags.add(flag);
    }
  }
}
