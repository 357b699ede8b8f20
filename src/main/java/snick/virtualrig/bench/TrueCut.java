package snick.virtualrig.bench;

import java.util.OptionalDouble;
import snick.quantity.Force;

/**
 * What truly happened at the filament, to be held beside what was measured.
 *
 * @param number 1 for the rig's first event
 * @param kind how it ended
 * @param breakForce force at which the filament or thread parted (the first part of two); if
 *     released, the largest force
 * @param breakNanos device clock at that instant, ns, not wrapped, on the scale of the sample
 *     stamps; samples show it later by the filter's delay
 * @param rateGramForcePerSecond loading rate asked for, gf/s; 0 for a thread
 * @param placeMillimetres place on the edge, mm from the heel, if one was given
 */
public record TrueCut(
    int number,
    Kind kind,
    Force breakForce,
    long breakNanos,
    double rateGramForcePerSecond,
    OptionalDouble placeMillimetres) {
  /** How a loading ended. */
  public enum Kind {
    SEVERED,
    PARTED_IN_STEPS,
    RELEASED,
    THREAD_CUT
  }

  public TrueCut atNanos(long nanos) {
    return new TrueCut(number, kind, breakForce, nanos, rateGramForcePerSecond, placeMillimetres);
  }
}
