package snick.store.record;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import snick.cut.response.Response;
import snick.quantity.SampleRate;

/**
 * A rig's response as it was learned.
 *
 * @param deviceId identity of the rig
 * @param nominalRate rate at which it was learned, if the rig names one
 * @param made when it was learned
 * @param response what was learned
 * @param cutIds cuts that it was learned from, in order
 */
public record StoredResponse(
    String deviceId,
    Optional<SampleRate> nominalRate,
    Instant made,
    Response response,
    List<Long> cutIds) {
  public StoredResponse {
    cutIds = List.copyOf(cutIds);
  }
}
