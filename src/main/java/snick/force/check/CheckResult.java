package snick.force.check;

import java.util.Locale;
import java.util.Optional;
import snick.phrase.Phrase;

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
  public enum Check {
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

    /** The word used in JSON, for example {@code clock_wire}. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /** How it is. */
  public enum Grade {
    PASS,
    /** There is nothing to judge by. */
    UNKNOWN,
    WARN,
    FAIL;

    /** The word used in JSON, for example {@code pass}. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }
}
