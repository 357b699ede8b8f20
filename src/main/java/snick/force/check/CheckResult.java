package snick.force.check;

import java.util.Optional;
import snick.phrase.Phrase;
import snick.quantity.Worded;

/**
 * One line of a rig check.
 *
 * @param check what was looked at
 * @param grade how it is
 * @param measured what was measured
 * @param expected what is expected
 * @param meaning what it means
 * @param remedy what to do; empty if nothing
 */
public record CheckResult(
    Check check,
    Grade grade,
    Phrase measured,
    Phrase expected,
    Phrase meaning,
    Optional<Phrase> remedy) {
  /** What is looked at. */
  public enum Check implements Worded {
    RATE,
    NOISE,
    DRIFT,
    OVERRANGE,
    STUCK,
    CLOCK_WIRE,
    SPIKES,
    HUM,
    CLOCK,
    LOSS;
  }

  /** How it is. */
  public enum Grade implements Worded {
    PASS,
    /** There is nothing to judge by. */
    UNKNOWN,
    WARN,
    FAIL;
  }
}
