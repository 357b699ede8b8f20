package snick.force.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
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
      throw new NotAccepted("refused.device_id", "n", deviceId.length());
    }
    if (gain < 1 || gain > HIGHEST_GAIN) {
      throw new NotAccepted("refused.gain", "gain", gain, "limit", HIGHEST_GAIN);
    }
    if (polarity != 1 && polarity != -1) {
      throw new NotAccepted("refused.polarity", "value", polarity);
    }
  }

  /** What is different on {@code other}, one sentence each; empty if counts are worth the same. */
  public List<Phrase> differences(RigSetting other) {
    List<Phrase> found = new ArrayList<>();
    compare(found, "setting.device", deviceId, other.deviceId);
    compare(found, "setting.gain", gain, other.gain);
    compare(found, "setting.rate", rateText(nominalRate), rateText(other.nominalRate));
    compare(found, "setting.polarity", polarity, other.polarity);
    return List.copyOf(found);
  }

  private static void compare(List<Phrase> found, String what, Object here, Object there) {
    if (!here.equals(there)) {
      found.add(Phrase.of("setting.differs", "what", Phrase.of(what), "then", here, "now", there));
    }
  }

  private static String rateText(SampleRate rate) {
    return String.format(Locale.ROOT, "%.3f", rate.hertz());
  }
}
