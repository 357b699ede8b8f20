package snick.force.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * How far a guided calibration has come. Immutable; enough to go on from.
 *
 * @param plan what to do
 * @param setting rig and setting; every reading was taken with it
 * @param done complete runs
 * @param current readings of the run under way, one for each step taken
 * @param hold readings of the timed hold, if it is done; otherwise empty
 */
public record GuidedState(
    CalibrationPlan plan,
    RigSetting setting,
    List<CalibrationRun> done,
    List<HeldReading> current,
    List<HeldReading> hold) {
  public GuidedState {
    done = List.copyOf(done);
    current = List.copyOf(current);
    hold = List.copyOf(hold);
    if (done.size() > plan.runs() || current.size() >= plan.runSteps().size()) {
      throw new IllegalArgumentException(
          done.size() + " runs and " + current.size() + " readings do not fit the plan");
    }
  }

  /** Nothing read yet. */
  public static GuidedState begin(CalibrationPlan plan, RigSetting setting) {
    return new GuidedState(plan, setting, List.of(), List.of(), List.of());
  }

  /** What to do next; empty when all is done. */
  public Optional<CalibrationPlan.Step> step() {
    if (done.size() < plan.runs()) {
      return Optional.of(plan.runSteps().get(current.size()));
    }
    boolean rest = plan.holdSeconds() > 0 && hold.isEmpty();
    return rest
        ? Optional.of(new CalibrationPlan.Step.Rest(plan.largest(), plan.holdSeconds()))
        : Optional.empty();
  }

  /** Number of the run under way, from 1; the last run's once all are done. */
  public int run() {
    return Math.min(plan.runs(), done.size() + 1);
  }

  /** With one more reading; a complete run leaves its last zero as the next run's first. */
  GuidedState with(HeldReading reading) {
    List<HeldReading> readings = new ArrayList<>(current);
    readings.add(reading);
    if (readings.size() < plan.runSteps().size()) {
      return new GuidedState(plan, setting, done, readings, hold);
    }
    List<CalibrationRun> runs = new ArrayList<>(done);
    runs.add(plan.run(readings));
    List<HeldReading> next = runs.size() < plan.runs() ? List.of(reading) : List.of();
    return new GuidedState(plan, setting, runs, next, hold);
  }

  GuidedState withHold(List<HeldReading> readings) {
    return new GuidedState(plan, setting, done, current, readings);
  }

  /**
   * To go on in a new stream: device time begins anew there and the zero may have moved, so the run
   * under way begins again; complete runs stay.
   */
  public GuidedState resumed() {
    return new GuidedState(plan, setting, done, List.of(), hold);
  }

  /** The data, once all steps are done. */
  public Optional<CalibrationData> data() {
    if (step().isPresent()) {
      return Optional.empty();
    }
    Optional<CalibrationData.CreepHold> creep =
        hold.isEmpty()
            ? Optional.empty()
            : Optional.of(new CalibrationData.CreepHold(plan.largest(), hold));
    return Optional.of(new CalibrationData(setting, done, creep));
  }
}
