package snick.exchange.derive;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import snick.cut.Cut;
import snick.store.record.CutForce;
import snick.store.record.EarlierResult;

/**
 * A cut as a package states it.
 *
 * @param number its number in the package
 * @param recording number of its recording in the package
 * @param occurredAt host time
 * @param cut the event with its trace
 * @param detectorVersion version of the detector that found it
 * @param calibration number of its calibration in the package, if it has a force
 * @param force the force, if it has one
 * @param forceMissing why it had no force when it was recorded
 * @param place where it belongs in the journal, if anywhere
 * @param setAside whether it was set aside
 * @param source number of the source whose work it is; 0 for the package's own
 * @param earlier what was derived from it before
 */
public record StatedCut(
    int number,
    int recording,
    Instant occurredAt,
    Cut cut,
    int detectorVersion,
    OptionalInt calibration,
    Optional<CutForce> force,
    Optional<String> forceMissing,
    Optional<StatedPlace> place,
    boolean setAside,
    int source,
    List<EarlierResult> earlier) {
  /**
   * Where a cut belongs.
   *
   * @param session number of the session in the package
   * @param stage number of the stage in it
   * @param placeMm distance from the heel, mm
   */
  public record StatedPlace(int session, int stage, OptionalDouble placeMm) {}
}
