package snick.store.record;

import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.cut.Cut;

/**
 * A cut to be stored, with what belongs to it.
 *
 * @param recordingId the recording it belongs to
 * @param occurredAt host time of the break, or of the onset if it did not break
 * @param cut the event
 * @param force what a stored calibration makes of its peak
 * @param forceMissing why there is no force, for people; empty if there is one, or nobody asked
 * @param inRunningStage whether it lands in the running stage of the session that runs on its rig,
 *     if there is one
 * @param placeMm distance from the heel in that stage, mm; empty if not noted
 */
public record NewCut(
    long recordingId,
    Instant occurredAt,
    Cut cut,
    Optional<CutForce> force,
    Optional<String> forceMissing,
    boolean inRunningStage,
    OptionalDouble placeMm) {
  /** A cut alone. */
  public static NewCut of(long recordingId, Instant occurredAt, Cut cut) {
    return new NewCut(
        recordingId,
        occurredAt,
        cut,
        Optional.empty(),
        Optional.empty(),
        false,
        OptionalDouble.empty());
  }

  /** The same in another recording. */
  public NewCut in(long otherRecordingId) {
    return new NewCut(
        otherRecordingId, occurredAt, cut, force, forceMissing, inRunningStage, placeMm);
  }

  /** With a force. */
  public NewCut with(CutForce derived) {
    return new NewCut(
        recordingId, occurredAt, cut, Optional.of(derived), forceMissing, inRunningStage, placeMm);
  }

  /** Without a force, and why. */
  public NewCut without(Optional<String> why) {
    return new NewCut(recordingId, occurredAt, cut, Optional.empty(), why, inRunningStage, placeMm);
  }

  /** Lands in the running stage, if there is one. */
  public NewCut inRunningStage(OptionalDouble atMm) {
    return new NewCut(recordingId, occurredAt, cut, force, forceMissing, true, atMm);
  }
}
