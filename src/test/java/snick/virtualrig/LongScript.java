package snick.virtualrig;

import java.util.ArrayList;
import java.util.List;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;

/** Scripts of hours and days: cuts of invented strengths at even distances. */
public final class LongScript {
  private static final double LEAST_GRAM_FORCE = 90;
  private static final double STEP_GRAM_FORCE = 7;
  private static final int STRENGTHS = 20;
  private static final double RATE_GRAM_FORCE_PER_SECOND = 100;
  private static final double AFTERWARDS_SECONDS = 2;
  private static final double HOUR_SECONDS = 3600;
  private static final double SILENCE_SECONDS = 0.5;
  private static final double FOR_GOOD_SECONDS = 1e6;

  private LongScript() {}

  /** So many cuts, each after a rest; s from cut to cut, 3 or more. */
  public static Script cuts(double everySeconds, int cuts) {
    List<Action> actions = new ArrayList<>();
    add(actions, everySeconds, cuts);
    actions.add(new Action.Rest(AFTERWARDS_SECONDS));
    return new Script(actions);
  }

  /**
   * The same for a count that must come out exactly: no sample for a while, so that the host knows
   * the device before the first; every hour the line is silent for half a second, so that samples
   * are lost; after the last cut the converter stands still, so that what was sent is known.
   *
   * @param quietSeconds s without a sample at the start
   */
  public static FaultyScript counted(double quietSeconds, double everySeconds, int cuts) {
    FaultyScript script =
        new FaultyScript(Script.of())
            .thenGoWrong(new Fault.ConverterLost(quietSeconds))
            .then(new Action.Rest(quietSeconds));
    int cutsAnHour = (int) Math.max(1, HOUR_SECONDS / everySeconds);
    for (int made = 0; made < cuts; made += cutsAnHour) {
      List<Action> hour = new ArrayList<>();
      add(hour, everySeconds, Math.min(cutsAnHour, cuts - made));
      hour.add(new Action.Rest(AFTERWARDS_SECONDS));
      script =
          script.then(hour.toArray(Action[]::new)).thenGoWrong(new Fault.Silence(SILENCE_SECONDS));
    }
    return script
        .then(new Action.Rest(AFTERWARDS_SECONDS))
        .thenGoWrong(new Fault.ConverterLost(FOR_GOOD_SECONDS))
        .then(new Action.Rest(1));
  }

  private static void add(List<Action> actions, double everySeconds, int cuts) {
    for (int i = 0; i < cuts; i++) {
      double gramForce = LEAST_GRAM_FORCE + i % STRENGTHS * STEP_GRAM_FORCE;
      double loadingSeconds = gramForce / RATE_GRAM_FORCE_PER_SECOND;
      actions.add(new Action.Rest(everySeconds - loadingSeconds));
      actions.add(Action.Cut.ofGramForce(gramForce, RATE_GRAM_FORCE_PER_SECOND));
    }
  }
}
