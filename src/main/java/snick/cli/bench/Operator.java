package snick.cli.bench;

import snick.force.reading.CalibrationPlan;

/** Whoever hangs the masses. */
public interface Operator {
  /** What was said. */
  enum Word {
    /** Nothing yet. */
    NONE,
    /** The step is done. */
    DONE,
    /** Stop here; or nobody will say anything any more. */
    STOP
  }

  /** Asks for a step. */
  void ask(CalibrationPlan.Step step);

  /** Asks to cut the thread of the hanging mass. */
  void askToCut();

  /** What was said since; does not wait. */
  Word word();

  /** A step in words. */
  static String words(CalibrationPlan.Step step) {
    if (step instanceof CalibrationPlan.Step.PutOn on) {
      return "put on " + on.load().name() + " and nothing else (" + on.direction().word() + ")";
    }
    if (step instanceof CalibrationPlan.Step.Rest rest) {
      return "put on %s and leave it for %s s"
          .formatted(rest.load().name(), Math.round(rest.seconds()));
    }
    return "take everything off";
  }
}
