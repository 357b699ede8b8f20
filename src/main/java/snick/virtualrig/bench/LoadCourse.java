package snick.virtualrig.bench;

import java.util.OptionalDouble;

/** One action under way: the force on the cell while it lasts. */
interface LoadCourse {
  /** Let time pass; the mean force during the step, gf. */
  double advance(double stepSeconds, Witness witness);

  /** Whether the edge rests on the filament, so that the hand damps the fixture. */
  default boolean handHolds() {
    return false;
  }

  /** Whether the action is finished. */
  boolean over();

  /** The force, gf, if it will not change during the next {@code seconds}. */
  default OptionalDouble steadyGramForce(double seconds) {
    return OptionalDouble.empty();
  }

  /** Sees what happens to filament and thread. */
  interface Witness {
    /**
     * A loading ended.
     *
     * @param secondsIntoStep instant of the break, s after the step began
     */
    void ended(
        TrueCut.Kind kind,
        double gramForce,
        double secondsIntoStep,
        double rateGramForcePerSecond,
        OptionalDouble placeMillimetres);
  }
}
