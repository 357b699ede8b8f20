package snick.store.record;

import java.time.Instant;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Pattern;
import snick.quantity.SampleRate;
import snick.quantity.Worded;

/**
 * One opened stream of one rig, as it was when it began.
 *
 * @param deviceId identity of the device: 16 hexadecimal digits, or for a text stream the name
 *     given to the rig; 1 to 200 characters
 * @param firmware what the device says about its firmware, untrusted text; empty if it says nothing
 * @param source where the bytes came from, for example a serial port's path; control characters
 *     become question marks, and of more than 1,000 characters the last ones are kept
 * @param form how readings arrive
 * @param startedAt host time at which it began
 * @param gain gain of the bridge amplifier, if known
 * @param nominalRate nominal output rate, if known
 * @param decimals digits after the decimal point of a text reading, 0 to 9: a stored count is a
 *     unit of the last digit
 */
public record Recording(
    String deviceId,
    String firmware,
    String source,
    Form form,
    Instant startedAt,
    OptionalInt gain,
    Optional<SampleRate> nominalRate,
    int decimals) {
  private static final Pattern NO_TEXT = Pattern.compile("[\\p{Cc}\\p{Cs}]");
  private static final int LONGEST_ID = 200;
  private static final int LONGEST_SOURCE = 1_000;

  /** How readings arrive. */
  public enum Form implements Worded {
    BINARY,
    TEXT
  }

  public Recording {
    source = NO_TEXT.matcher(source).replaceAll("?");
    source = source.substring(Math.max(0, source.length() - LONGEST_SOURCE));
    if (deviceId.isEmpty() || deviceId.length() > LONGEST_ID) {
      throw new IllegalArgumentException(
          "device id of " + deviceId.length() + " characters, 1 to " + LONGEST_ID + " allowed");
    }
    if (!(decimals >= 0 && decimals <= 9)) {
      throw new IllegalArgumentException(decimals + " decimals, 0 to 9 allowed");
    }
  }
}
