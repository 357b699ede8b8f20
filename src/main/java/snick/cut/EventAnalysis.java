package snick.cut;

import java.util.EnumSet;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;

/** Turns a finished event into a cut, or finds that it was no loading at all. */
final class EventAnalysis {
  private static final double RELEASE_NOISES = 20;

  /** While the noise is known from a few readings only, more of it is asked for. */
  private static final double UNSURE_NOISES = 30;

  private static final double FILTER_FALL_PERIODS = 4.3;
  private static final int FEW_RAMP_SAMPLES = 8;
  private static final double LARGE_CORRECTION = 0.1;
  private static final double LARGE_UNCERTAINTY = 0.02;

  /** Readings before the fall that the filter still joins to it. */
  private static final int TOP_SAMPLES = 2;

  private static final double UNEVEN_NOISES = 2;
  private static final double MOVED_NOISES = 4;

  private final DetectorSettings settings;
  private final FewSorter sorter;
  private final BreakEstimator estimator = new BreakEstimator();

  EventAnalysis(DetectorSettings settings, FewSorter sorter) {
    this.settings = settings;
    this.sorter = sorter;
  }

  /** The cut; empty if the event was too small or a mere shift of the level. */
  Optional<Cut> of(Event event, double periodNanos, int number) {
    if (event.end() == Event.End.ABSORBED) {
      return Optional.empty();
    }
    EventReading r = EventReading.of(event, periodNanos, settings.severedFallNanos(), sorter);
    Outcome outcome = outcome(event, r);
    if (tooSmall(outcome, event, r)) {
      return Optional.empty();
    }
    return Optional.of(cut(event, r, outcome, estimate(outcome, r), number));
  }

  private Optional<BreakEstimate> estimate(Outcome outcome, EventReading r) {
    if (r.fall.isEmpty()) {
      return Optional.empty();
    }
    Fall fall = r.fall.get();
    return switch (outcome) {
      case SEVERED -> Optional.of(estimate(r, fall, r.after));
      case PARTED_IN_STEPS -> Optional.of(estimate(r, fall.firstStep(), r.s.x[fall.firstTo()]));
      case RELEASED, OVERRANGE, TRUNCATED, DISTURBED -> Optional.empty();
    };
  }

  private BreakEstimate estimate(EventReading r, Fall fall, double after) {
    BreakEstimate line = LineEstimator.estimate(r.s, r.onset, fall, after, r.noise);
    BreakEstimate full = estimator.estimate(r.s, r.onset, fall, after, r.noise, line);
    int from = Math.max(r.onset, fall.top() - TOP_SAMPLES);
    double top = r.s.x[r.s.largest(from, fall.bottom() + 1)];
    return new Plausible(top, r.noise).of(full, line);
  }

  private boolean tooSmall(Outcome outcome, Event event, EventReading r) {
    if (outcome == Outcome.OVERRANGE) {
      return false;
    }
    double height = r.height();
    boolean clear = event.zeroSure() || height > UNSURE_NOISES * r.noise;
    boolean sharp = outcome == Outcome.SEVERED && clear && height > 1.2 * event.triggerCounts();
    return height < settings.minimumForceCounts()
        || r.spikePair()
        || (!sharp && r.slow())
        || (!sharp && height < Math.max(RELEASE_NOISES * r.noise, 2 * event.triggerCounts()));
  }

  private Outcome outcome(Event event, EventReading r) {
    if (event.anyOverrange()) {
      return Outcome.OVERRANGE;
    }
    if (event.end() == Event.End.CUT_OFF && !event.fallen()) {
      return Outcome.TRUNCATED;
    }
    if (r.fall.isEmpty() || event.end() == Event.End.TOO_LONG) {
      return Outcome.DISTURBED;
    }
    if (r.reboundCounts() > 0.5 * r.height() || r.impulsive()) {
      return Outcome.DISTURBED;
    }
    return byFall(r.fall.get(), r);
  }

  private Outcome byFall(Fall fall, EventReading r) {
    double most = Math.max(FILTER_FALL_PERIODS, settings.severedFallNanos() / r.periodNanos);
    if (fall.steps() > 1) {
      return Outcome.PARTED_IN_STEPS;
    }
    return r.fellWithin(most) ? Outcome.SEVERED : Outcome.RELEASED;
  }

  private Cut cut(
      Event event, EventReading r, Outcome outcome, Optional<BreakEstimate> estimate, int number) {
    int dips = new Dips(r.s, r.onset, r.peak, event.triggerCounts()).count();
    OptionalLong breakNanos =
        estimate.isPresent()
            ? OptionalLong.of(r.s.nanosAt(estimate.get().breakTime()))
            : OptionalLong.empty();
    return new Cut(
        number,
        outcome,
        r.polarity,
        r.s.nanosAt(r.s.time[r.onset]),
        breakNanos,
        Optional.of(peak(r, estimate)),
        shape(r, estimate, dips),
        new Cut.Rest(r.zero.counts(), event.levelAfterCounts(), r.noise),
        flags(event, r, estimate, dips),
        new Trace(event.log(), event.allGaps()));
  }

  private static Peak peak(EventReading r, Optional<BreakEstimate> estimate) {
    double most = r.observedMax();
    double zero = r.zero.uncertaintyCounts();
    if (estimate.isEmpty()) {
      return new Peak(most, most, Math.hypot(r.noise, zero));
    }
    BreakEstimate e = estimate.get();
    return new Peak(most, e.forceCounts(), Math.hypot(e.uncertaintyCounts(), zero));
  }

  private static Cut.Shape shape(EventReading r, Optional<BreakEstimate> estimate, int dips) {
    double perPeriod = r.slopeBeforeFall(estimate);
    double fall = r.fall.isPresent() ? r.fall.get().periods() : 0;
    return new Cut.Shape(
        perPeriod / r.periodNanos * 1e9, Math.round(fall * r.periodNanos), dips, r.peak - r.onset);
  }

  private static Set<Flag> flags(
      Event event, EventReading r, Optional<BreakEstimate> estimate, int dips) {
    Set<Flag> flags = EnumSet.noneOf(Flag.class);
    flag(flags, Flag.ZERO_UNSURE, !event.zeroSure() || r.zero.crept());
    flag(flags, Flag.GAP_INSIDE, !event.gaps().isEmpty());
    flag(flags, Flag.SPIKE_NEAR_PEAK, !event.anyOverrange() && r.spikeNearPeak());
    flag(flags, Flag.DIPS_BEFORE_PEAK, dips > 0);
    double moved = MOVED_NOISES * r.noise;
    flag(flags, Flag.ZERO_MOVED, event.fallen() && Math.abs(r.after) > moved);
    if (estimate.isPresent()) {
      BreakEstimate e = estimate.get();
      flag(flags, Flag.TOO_FAST_FOR_RATE, tooFast(r, e, r.observedMax()));
      flag(flags, Flag.UNEVEN_LOADING, e.tremorNoises() > UNEVEN_NOISES);
    }
    return flags;
  }

  private static boolean tooFast(EventReading r, BreakEstimate e, double observedMax) {
    boolean fewSamples = r.peak - r.onset < FEW_RAMP_SAMPLES;
    boolean farFromMaximum =
        !(Math.abs(e.forceCounts() - observedMax) < LARGE_CORRECTION * e.forceCounts());
    boolean unsure = e.uncertaintyCounts() > LARGE_UNCERTAINTY * e.forceCounts();
    return fewSamples || farFromMaximum || (unsure && Kernel.filterOutlastsTremor(r.periodNanos));
  }

  private static void flag(Set<Flag> flags, Flag flag, boolean holds) {
    if (holds) {
      flags.add(flag);
    }
  }
}
