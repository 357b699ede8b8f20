package snick.frame.message;

import java.util.Objects;
import java.util.Optional;

/**
 * The device's answer to a command.
 *
 * @param command type byte of the command answered
 * @param tag tag of the command answered, 0 to 255
 * @param result accepted, or why refused
 * @param value 32 bits unsigned: the protocol version for ask hello, the next sample's sequence
 *     number for start and stop, the rate in force in mHz, the gain in force, or the echoed token;
 *     0 if the command was unknown or malformed
 * @param deviceMicros device clock when the command's delimiter came in, µs, 32 bits unsigned
 */
public record Answer(int command, int tag, Result result, long value, long deviceMicros) {
  public Answer {
    Limits.check("command", command, 0, Limits.MAX_U8);
    Limits.check("tag", tag, 0, Limits.MAX_U8);
    Objects.requireNonNull(result);
    Limits.check("value", value, 0, Limits.MAX_U32);
    Limits.check("device clock in µs", deviceMicros, 0, Limits.MAX_U32);
  }

  /** Outcome of a command. */
  public enum Result implements Coded {
    /** Done. */
    ACCEPTED(0),
    /** This firmware has no such command. */
    UNKNOWN_COMMAND(1),
    /** The command has a wrong length. */
    MALFORMED(2),
    /** The value is outside what this device can do. */
    OUT_OF_RANGE(3),
    /** Not in the state in which the device is. */
    NOT_POSSIBLE_NOW(4);

    private static final Result[] MEANINGS = values();

    private final int code;

    Result(int code) {
      this.code = code;
    }

    /** The byte that stands for it on the wire. */
    @Override
    public int code() {
      return code;
    }

    /** What a byte on the wire stands for; empty if it stands for nothing. */
    public static Optional<Result> ofCode(int code) {
      return Coded.ofCode(code, MEANINGS);
    }
  }
}
