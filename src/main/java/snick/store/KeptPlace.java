package snick.store;

import java.time.Instant;
import java.util.Optional;
import snick.json.JsonNode;
import snick.phrase.NotAccepted;
import snick.store.record.Evidence;

/**
 * What the check of place that was kept last says of a rig.
 *
 * @param largest largest relative difference by where on the filament the load hangs
 * @param limit what passes, relative
 * @param at when it was made
 */
public record KeptPlace(double largest, double limit, Instant at) {
  /** Kind of evidence under which checks of place are kept. */
  public static final String KIND = "place_check";

  /**
   * The last one of a rig.
   *
   * @throws NotAccepted if it cannot be read
   */
  public static Optional<KeptPlace> of(StoreReader store, String deviceId) {
    return store.lastEvidence(deviceId, KIND).map(KeptPlace::parse);
  }

  /**
   * The relative effect that the last check of a rig found; 0 if there is none. Every calibration
   * takes it into its budget, unless somebody says otherwise.
   *
   * @throws NotAccepted if it cannot be read
   */
  public static double effect(StoreReader store, String deviceId) {
    return of(store, deviceId).map(KeptPlace::largest).orElse(0.0);
  }

  private static KeptPlace parse(Evidence check) {
    try {
      JsonNode document = JsonNode.of(KIND, check.document());
      return new KeptPlace(
          document.member("largest").real(), document.member("limit").real(), check.at());
    } catch (IllegalArgumentException e) {
      throw new NotAccepted("refused.place_check_unreadable", "rig", check.deviceId());
    }
  }
}
