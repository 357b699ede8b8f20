package snick.force.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import snick.quantity.SampleRate;

/**
 * The rig and its setting, as far as they decide what a count is worth.
 *
 * @param deviceId identity that the device gives itself, or a name the person gave a rig that has
 *     none; 1 to 200 characters, no control characters
 * @param gain gain of the bridge amplifier, 1 to 65535
 * @param nominalRate nominal output rate
 * @param polarity +1 if load raises the reading, −1 if it lowers it
 */
public record RigSetting(String deviceId, int gain, SampleRate nominalRate, int polarity) {
  private static final int LONGEST_ID = 200;
  private static final int HIGHEST_GAIN = 65_535;

  public RigSetting {
    if (deviceId.isEmpty()
        || deviceId.length() > LONGEST_ID
        || deviceId.chars().anyMatch(Character::isISOControl)) {
      throw new IllegalArgumentException(
          "device id of "
              + deviceId.length()
              + " characters: 1 to 200 allowed, without control characters");
    }
    if (gain < 1 || gain > HIGHEST_GAIN) {
      throw new IllegalArgumentException("gain " + gain + " is outside 1 to " + HIGHEST_GAIN);
    }
    if (polarity != 1 && polarity != -1) {
      throw new IllegalArgumentException("polarity " + polarity + ": +1 or -1 allowed");
    }
  }

  /** What is different on {@code other}, one sentence each; empty if counts are worth the same. */
  public List<String> differences(RigSetting other) {
    List<String> found = new ArrayList<>();
    compare(found, "device", deviceId, other.deviceId);
    compare(found, "gain", gain, other.gain);
    compare(found, "nominal rate in Hz", rateText(nominalRate), rateText(other.nominalRate));
    compare(found, "polarity", polarity, other.polarity);
    return List.copyOf(found);
  }

  private static void compare(List<String> found, String what, Object here, Object there) {
    if (!here.equals(there)) {
      found.add(what + " was " + here + " at calibration and is " + there + " now");
    }
  }

  private static String rateText(SampleRate rate) {
    return String.format(Locale.ROOT, "%.3f", rate.hertz());
  }
}
