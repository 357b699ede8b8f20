package snick.cut;

import java.util.Optional;

/** Reads a finished event through: what it was, or that it was no loading at all. */
final class EventAnalysis {
  /** Half and twice as much of this, or of the next for unsure noise, changes nothing (Event). */
  private static final double RELEASE_NOISES = 20;

  /** A cut stands out of the rest band by so much, what is let go by so much. */
  private static final double SHARP_BANDS = 1.2;

  private static final double RELEASE_BANDS = 2;

  /** While the noise is known from a few readings only, more of it is asked for. */
  private static final double UNSURE_NOISES = 30;

  /** A reading higher than so many peaks of running medians is a spike. */
  private static final double SPIKE_SHARE = 1.5;

  /** So few readings after the event's fall a fall is the same. */
  private static final int FEW_READINGS = 5;

  private static final double FILTER_FALL_PERIODS = 4.3;

  private final DetectorSettings settings;

  EventAnalysis(DetectorSettings settings) {
    this.settings = settings;
  }

  /**
   * What it was; empty if the event was too small or a mere shift of the level. What was taken for
   * spikes in a fall were swings if the readings swing on after it, or if it parted but for them.
   */
  Optional<FoundLoading> of(Event event, int number) {
    if (event.end() == Event.End.ABSORBED) {
      return Optional.empty();
    }
    EventReading r = EventReading.of(event, settings.severedFallNanos(), true);
    Outcome outcome = outcome(event, r);
    if (event.fallen() && (outcome != Outcome.SEVERED || r.spikeInFall())) {
      EventReading plain = EventReading.of(event, settings.severedFallNanos(), false);
      if (plain.height() < SPIKE_SHARE * event.peakCounts()
          && outcome(event, plain) == Outcome.SEVERED
          && plain.rings()
          && plain.fall.get().bottom() < event.fallenAt() + FEW_READINGS) {
        return finding(event, plain, Outcome.SEVERED, number);
      }
    }
    return finding(event, r, outcome, number);
  }

  private Optional<FoundLoading> finding(Event event, EventReading r, Outcome outcome, int number) {
    return tooSmall(outcome, event, r)
        ? Optional.empty()
        : Optional.of(new FoundLoading(event, r, outcome, number));
  }

  private boolean tooSmall(Outcome outcome, Event event, EventReading r) {
    if (outcome == Outcome.OVERRANGE) {
      return false;
    }
    double height = r.height();
    boolean clear = event.before().rest().sure() || height > UNSURE_NOISES * r.noise;
    boolean sharp =
        outcome == Outcome.SEVERED
            && clear
            && height > SHARP_BANDS * event.before().rest().bandCounts();
    return height < settings.minimumForceCounts()
        || r.spikePair()
        || (!sharp && r.slow())
        || (!sharp && height < releaseCounts(event, r));
  }

  private static double releaseCounts(Event event, EventReading r) {
    return Math.max(RELEASE_NOISES * r.noise, RELEASE_BANDS * event.before().rest().bandCounts());
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
    if (r.impulsive()) {
      return Outcome.DISTURBED;
    }
    if (event.step() == Event.Step.LOADED_OTHERWISE) {
      return Outcome.RELEASED;
    }
    return byFall(r.fall.get(), r);
  }

  private Outcome byFall(Fall fall, EventReading r) {
    double most = Math.max(FILTER_FALL_PERIODS, settings.severedFallNanos() / r.periodNanos);
    if (fall.steps() > 1 && !(r.rings() && r.fellAtOnce())) {
      return Outcome.PARTED_IN_STEPS;
    }
    return r.fellWithin(most) || r.swingsBack() ? Outcome.SEVERED : Outcome.RELEASED;
  }
}
