package snick.store;

import java.time.Instant;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Which cuts are meant: those that meet every condition set. Immutable.
 *
 * @param recordingId only of this recording
 * @param from only those that occurred at or after this time
 * @param before only those that occurred before this time
 */
public record CutSelection(
    OptionalLong recordingId, Optional<Instant> from, Optional<Instant> before) {
  /** Every cut. */
  public static CutSelection all() {
    return new CutSelection(OptionalLong.empty(), Optional.empty(), Optional.empty());
  }

  /** Only those of one recording. */
  public CutSelection ofRecording(long id) {
    return new CutSelection(OptionalLong.of(id), from, before);
  }

  /** Only those that occurred at or after {@code time}. */
  public CutSelection from(Instant time) {
    return new CutSelection(recordingId, Optional.of(time), before);
  }

  /** Only those that occurred before {@code time}. */
  public CutSelection before(Instant time) {
    return new CutSelection(recordingId, from, Optional.of(time));
  }
}
