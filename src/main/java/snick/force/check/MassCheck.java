package snick.force.check;

import java.util.Optional;
import java.util.OptionalDouble;
import snick.force.budget.Calibration;
import snick.force.budget.CombinedUncertainty;
import snick.force.mass.Load;
import snick.force.mass.Range;
import snick.force.reading.HeldReading;
import snick.force.reading.RigSetting;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/**
 * Check of a calibration with one known load.
 *
 * @param calibrationId calibration checked
 * @param expectedNewtons force of the load, N
 * @param measuredNewtons force by the calibration, N
 * @param standardUncertaintyNewtons of the difference, N
 * @param limitNewtons largest difference that passes, N
 */
public record MassCheck(
    String calibrationId,
    double expectedNewtons,
    double measuredNewtons,
    double standardUncertaintyNewtons,
    double limitNewtons) {
  /** Measured less expected, N. */
  public double errorNewtons() {
    return measuredNewtons - expectedNewtons;
  }

  /** Measured less expected, in proportion to expected. */
  public double relativeError() {
    return errorNewtons() / expectedNewtons;
  }

  /** Whether the error lies within the limit. */
  public boolean passes() {
    return Math.abs(errorNewtons()) <= limitNewtons;
  }

  /**
   * Checks. Without a limit of the person's own, the limit is the expanded uncertainty (95 %) of
   * the difference of the two forces, taken as independent although the same masses may have made
   * the calibration.
   *
   * @param zero reading without load
   * @param loaded reading under load
   * @param relativeLimit largest relative error that passes, above 0; empty for the usual limit
   * @throws IllegalArgumentException if the calibration is not bound to a rig, or the load lies
   *     outside its range
   */
  public static MassCheck of(
      Calibration calibration,
      Load.Exerted load,
      HeldReading zero,
      HeldReading loaded,
      OptionalDouble relativeLimit) {
    int polarity = polarity(calibration.boundTo());
    double expected = load.force().newtons();
    if (!calibration.range().holds(expected)) {
      throw new NotAccepted(
          Phrase.of("refused.check_outside_range")
              .with("load", expected)
              .with("from", calibration.range().from().newtons())
              .with("to", calibration.range().to().newtons()));
    }
    double deflection = polarity * (loaded.meanCounts() - zero.meanCounts());
    double ofReading =
        Math.hypot(
            loaded.sdCounts() / Math.sqrt(loaded.samples()),
            zero.sdCounts() / Math.sqrt(zero.samples()));
    double measured = calibration.force(deflection, ofReading).value().newtons();
    CombinedUncertainty u =
        new CombinedUncertainty(measured, calibration.contributions(measured, ofReading));
    double combined = Math.hypot(u.standardNewtons(), load.standardUncertaintyNewtons());
    double limit =
        relativeLimit.isPresent()
            ? Range.require("limit", relativeLimit.getAsDouble(), 1e-9, 1, "(relative)") * expected
            : u.coverageFactor() * combined;
    return new MassCheck(calibration.id(), expected, measured, combined, limit);
  }

  private static int polarity(Optional<RigSetting> boundTo) {
    return boundTo
        .map(RigSetting::polarity)
        .orElseThrow(() -> new NotAccepted("refused.check_of_typed_in"));
  }
}
