package snick.force.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.phrase.Phrase;
import snick.quantity.Worded;
import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleSink;

/**
 * Guides a person through a calibration: asks for a step, waits for the person's word, waits until
 * the reading is steady, judges it, goes on. Knows device time only. One thread; nothing is kept
 * but {@link #state}, from which another can go on.
 */
public final class GuidedCalibration implements SampleSink {
  /** What it is waiting for. */
  public enum Phase implements Worded {
    /** The person is to do {@link #step} and then to {@link #confirm}. */
    WAITING_FOR_PERSON,
    /** The reading is to become steady. */
    SETTLING,
    /** The hold for creep is running. */
    RESTING,
    /** All steps are done. */
    FINISHED
  }

  /**
   * Why a step did not count; the step is asked for again.
   *
   * @param cause cause
   * @param message what was seen, with its limit
   * @param remedy what to do
   */
  public record Refused(Cause cause, Phrase message, Phrase remedy) {
    /** Causes. */
    public enum Cause implements Worded {
      OVERRANGE,
      SAME_READING_TWICE,
      UNSTEADY,
      WRONG_DIRECTION,
      UNDER_ONE_PERCENT,
      NOT_AS_ANNOUNCED,
      STILL_LOADED,
      LINK_BROKEN;
    }
  }

  private static final int HOLD_READINGS = 10;

  private final Steadiness steadiness;
  private final List<HeldReading> resting = new ArrayList<>();
  private GuidedState state;
  private Phase phase;
  private Optional<Refused> refused = Optional.empty();
  private SteadyReading reading;
  private long restingSinceNanos;
  private long nextRestNanos;

  /** Begins, or goes on from {@code state}. */
  public GuidedCalibration(GuidedState state, Steadiness steadiness) {
    this.state = state;
    this.steadiness = steadiness;
    this.reading = nothingRead();
    this.phase = phaseToBegin();
  }

  private SteadyReading nothingRead() {
    return new SteadyReading(steadiness, noiseCounts());
  }

  private Phase phaseToBegin() {
    return state.step().isPresent() ? Phase.WAITING_FOR_PERSON : Phase.FINISHED;
  }

  /** How far it has come. */
  public GuidedState state() {
    return state;
  }

  /** What to do next; empty when finished. */
  public Optional<CalibrationPlan.Step> step() {
    return state.step();
  }

  /** What it is waiting for. */
  public Phase phase() {
    return phase;
  }

  /** How far the reading has settled. */
  public Steadiness.Settling settling() {
    return reading.settling();
  }

  /** Why the last try of this step did not count; empty if there was none. */
  public Optional<Refused> refused() {
    return refused;
  }

  /** The person says that the step is done; without effect unless one is being waited for. */
  public void confirm() {
    if (phase == Phase.WAITING_FOR_PERSON) {
      phase = Phase.SETTLING;
      refused = Optional.empty();
      reading = nothingRead();
    }
  }

  @Override
  public void sample(long deviceNanos, int counts) {
    if (phase == Phase.SETTLING) {
      reading.sample(deviceNanos, counts);
      settle(deviceNanos);
    } else if (phase == Phase.RESTING) {
      reading.sample(deviceNanos, counts);
      rest(deviceNanos);
    }
  }

  private void settle(long deviceNanos) {
    if (reading.reading().isPresent()) {
      judge(reading.reading().get(), deviceNanos);
    } else if (reading.isLate()) {
      refuse(unsteady(reading.settling()));
    }
  }

  private Refused unsteady(Steadiness.Settling settling) {
    return new Refused(
        Refused.Cause.UNSTEADY,
        Phrase.of("held.unsteady")
            .with("seconds", Math.round(steadiness.timeoutSeconds()))
            .with("drift", fixed(settling.driftCounts()))
            .with("drift_limit", fixed(settling.driftLimitCounts()))
            .with("scatter", fixed(settling.scatterCounts()))
            .with("scatter_limit", fixed(settling.scatterLimitCounts())),
        Phrase.of("held.unsteady_do"));
  }

  private static String fixed(double counts) {
    return String.format(Locale.ROOT, "%.1f", counts);
  }

  /** Noise of the last accepted zero, counts. */
  private OptionalDouble noiseCounts() {
    if (!state.current().isEmpty()) {
      return OptionalDouble.of(state.current().get(0).sdCounts());
    }
    return state.done().isEmpty()
        ? OptionalDouble.empty()
        : OptionalDouble.of(state.done().get(state.done().size() - 1).zeroAfter().sdCounts());
  }

  private void judge(HeldReading held, long deviceNanos) {
    CalibrationPlan.Step step = state.step().orElseThrow();
    Optional<Refused> objection = new ReadingJudge(state).objection(step, held);
    if (objection.isPresent()) {
      refuse(objection.get());
    } else if (step instanceof CalibrationPlan.Step.Rest rest) {
      resting.clear();
      resting.add(held);
      phase = Phase.RESTING;
      restingSinceNanos = deviceNanos;
      nextRestNanos = deviceNanos + holdInterval(rest);
    } else {
      accept(state.with(held));
    }
  }

  private static long holdInterval(CalibrationPlan.Step.Rest rest) {
    return Math.round(rest.seconds() * 1e9 / HOLD_READINGS);
  }

  private void rest(long deviceNanos) {
    if (deviceNanos < nextRestNanos) {
      return;
    }
    CalibrationPlan.Step.Rest rest = (CalibrationPlan.Step.Rest) state.step().orElseThrow();
    nextRestNanos += holdInterval(rest);
    reading.now().ifPresent(resting::add);
    if ((deviceNanos - restingSinceNanos) / 1e9 >= rest.seconds() && resting.size() > 1) {
      accept(state.withHold(resting));
    }
  }

  private void accept(GuidedState next) {
    state = next;
    reading = nothingRead();
    phase = phaseToBegin();
  }

  private void refuse(Refused why) {
    refused = Optional.of(why);
    phase = phaseToBegin();
  }

  @Override
  public void overrange(long deviceNanos, Rail rail) {
    if (phase == Phase.SETTLING || phase == Phase.RESTING) {
      refuse(
          new Refused(
              Refused.Cause.OVERRANGE,
              Phrase.of("held.overrange", "end", Phrase.named("rail", rail)),
              Phrase.of("held.overrange_do")));
    }
  }

  @Override
  public void gap(Gap gap) {
    reading.gap(gap);
    boolean broken =
        gap.cause() == Gap.Cause.DEVICE_RESET
            || gap.cause() == Gap.Cause.FORM_CHANGED
            || gap.cause() == Gap.Cause.LINK_REOPENED;
    if (broken && phase != Phase.FINISHED) {
      state = state.resumed();
      refuse(
          new Refused(
              Refused.Cause.LINK_BROKEN,
              Phrase.of("held.link_broken", "cause", Phrase.named("gap", gap.cause())),
              Phrase.of("held.link_broken_do")));
    }
  }

  /** Nothing follows; {@link #state} stays, to go on from in another stream. */
  @Override
  public void end() {
    reading.end();
  }
}
