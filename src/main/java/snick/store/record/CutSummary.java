package snick.store.record;

import java.time.Instant;
import java.util.Optional;

/**
 * A stored cut without its trace, for lists.
 *
 * @param id its id, given once and never again
 * @param recordingId the recording it belongs to
 * @param number its number in the recording, from 1
 * @param occurredAt host time of the break, or of the onset if it did not break
 * @param samples samples in its trace
 * @param result the current result
 * @param force the current force of that result; empty if it has none
 * @param forceMissing why it had no force when it was recorded; empty if it had one
 * @param place the stage it belongs to; empty if none
 * @param setAside why it no longer counts; empty if it counts
 */
public record CutSummary(
    long id,
    long recordingId,
    int number,
    Instant occurredAt,
    int samples,
    StoredResult result,
    Optional<StoredForce> force,
    Optional<String> forceMissing,
    Optional<CutPlace> place,
    Optional<String> setAside) {
  /** Why there still is no force. */
  public Optional<String> missing() {
    return force.isEmpty() ? forceMissing : Optional.empty();
  }
}
