package snick.exchange.derive;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.force.budget.Calibration;
import snick.store.record.EarlierResult;
import snick.store.record.NewCut;

/**
 * A cut as a package states it.
 *
 * @param number its number in the package
 * @param cut the cut with its trace and force; its recording is told by its number in the package
 * @param detectorVersion version of the detector that found it
 * @param calibration its calibration, if it has a force
 * @param place where it belongs in the journal, if anywhere
 * @param setAside whether it was set aside
 * @param source number of the source whose work it is; 0 for the package's own
 * @param earlier what was derived from it before
 */
public record StatedCut(
    int number,
    NewCut cut,
    int detectorVersion,
    Optional<Calibration> calibration,
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
