package snick.frame;

/**
 * The device's answer to a command.
 *
 * @param command type byte of the command answered
 * @param tag tag of the command answered, 0 to 255
 * @param result accepted, or why refused
 * @param value the value now in force (mHz for rate, gain for gain, the echoed token for ping), 32
 *     bits unsigned
 * @param deviceMicros device clock when the command was read, µs, 32 bits unsigned
 */
public record Answer(int command, int tag, Result result, long value, long deviceMicros) {
  /** Outcome of a command. The order is the code on the wire. */
  public enum Result {
    ACCEPTED,
    UNKNOWN_COMMAND,
    MALFORMED,
    OUT_OF_RANGE,
    NOT_POSSIBLE_NOW
  }
}
