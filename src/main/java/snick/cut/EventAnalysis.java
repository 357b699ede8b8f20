package snick.cut;

import java.util.EnumSet;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;

/** Turns a finished event into a cut, or finds that it was no loading at all. */
final class EventAnalysis {
  private static final double RELEASE_NOISES = 20;
  private static final double FILTER_FALL_PERIODS = 4.3;
  private static final double SMALL_RAMP_SAMPLES = 8;

  private final DetectorSettings settings;

  EventAnalysis(DetectorSettings settings) {
    this.settings = settings;
  }

  Optional<Cut> of(Event event, double periodNanos, int number) {
    EventReading r = EventReading.of(event, periodNanos);
    Outcome outcome = outcome(event, r);
    if (tooSmall(outcome, event, r)) {
      return Optional.empty();
    }
    boolean parted = outcome == Outcome.SEVERED || outcome == Outcome.PARTED_IN_STEPS;
    Optional<BreakEstimate> estimate =
        parted
            ? r.fall.map(f -> BreakEstimator.estimate(r.s, r.onset, f, r.after, r.noise))
            : Optional.empty();
    return Optional.of(cut(event, r, outcome, estimate, number));
  }

  private boolean tooSmall(Outcome outcome, Event event, EventReading r) {
    if (outcome == Outcome.OVERRANGE) {
      return false;
    }
    double height = r.height();
    boolean sharp = outcome == Outcome.SEVERED && height > 1.2 * event.triggerCounts();
    return height < settings.minimumForceCounts()
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
    return byFall(r.fall.get(), r.periodNanos);
  }

  private Outcome byFall(Fall fall, double periodNanos) {
    double most = Math.max(FILTER_FALL_PERIODS, settings.severedFallNanos() / periodNanos);
    if (fall.periods() <= most) {
      return Outcome.SEVERED;
    }
    return fall.steps() > 1 ? Outcome.PARTED_IN_STEPS : Outcome.RELEASED;
  }

  private Cut cut(
      Event event, EventReading r, Outcome outcome, Optional<BreakEstimate> estimate, int number) {
    double most = r.height();
    OptionalLong breakNanos =
        estimate.isPresent()
            ? OptionalLong.of(r.s.nanosAt(estimate.get().breakTime()))
            : OptionalLong.empty();
    Peak peak =
        estimate
            .map(
                e ->
                    new Peak(
                        most,
                        e.forceCounts(),
                        Math.hypot(e.uncertaintyCounts(), r.zero.uncertaintyCounts())))
            .orElse(new Peak(most, most, r.noise));
    return new Cut(
        number,
        outcome,
        r.polarity,
        r.s.nanosAt(r.s.time[r.onset]),
        breakNanos,
        Optional.of(peak),
        shape(r, estimate),
        new Cut.Rest(r.zero.counts(), event.levelAfterCounts(), r.noise),
        flags(event, r, estimate),
        event.log().trace(0, event.log().size(), event.gaps()));
  }

  private static Cut.Shape shape(EventReading r, Optional<BreakEstimate> estimate) {
    double perPeriod =
        estimate.map(BreakEstimate::slopeCountsPerPeriod).orElse(r.meanSlopeCountsPerPeriod());
    long fall = r.fall.map(f -> Math.round(f.periods() * r.periodNanos)).orElse(0L);
    return new Cut.Shape(perPeriod / r.periodNanos * 1e9, fall, r.dips(), r.peak - r.onset);
  }

  private static Set<Flag> flags(Event event, EventReading r, Optional<BreakEstimate> estimate) {
    Set<Flag> flags = EnumSet.noneOf(Flag.class);
    flag(flags, Flag.ZERO_UNSURE, !event.zeroSure() || r.zero.crept());
    flag(flags, Flag.GAP_INSIDE, !event.gaps().isEmpty());
    flag(flags, Flag.SPIKE_NEAR_PEAK, r.spikesNearPeak > 0);
    flag(flags, Flag.DIPS_BEFORE_PEAK, r.dips() > 0);
    flag(flags, Flag.ZERO_MOVED, event.fallen() && Math.abs(r.after) > 4 * r.noise);
    estimate.ifPresent(
        e -> {
          double correction = Math.abs(e.forceCounts() - r.height()) / e.forceCounts();
          boolean fast = r.peak - r.onset < SMALL_RAMP_SAMPLES;
          flag(flags, Flag.TOO_FAST_FOR_RATE, fast || !(correction < 0.1));
          flag(flags, Flag.UNEVEN_LOADING, e.uneven());
        });
    return flags;
  }

  private static void flag(Set<Flag> flags, Flag flag, boolean holds) {
    if (holds) {
      flags.add(flag);
    }
  }
}
