package snick.force.check;

import snick.cut.Peak;
import snick.force.budget.Calibration;
import snick.force.mass.Load;
import snick.quantity.MeasuredForce;

/**
 * A hanging mass whose thread was cut: the detector's estimate against the known force, as evidence
 * for the whole chain.
 *
 * @param calibrationId calibration used
 * @param response step response of the chain
 * @param known force of the hanging mass with its standard uncertainty
 * @param estimated force by detector and calibration, with its standard uncertainty
 * @param observedNewtons force by the largest sample, N
 */
public record DynamicCheck(
    String calibrationId,
    StepResponse response,
    MeasuredForce known,
    MeasuredForce estimated,
    double observedNewtons) {

  /** Compares. */
  public static DynamicCheck of(
      Calibration calibration, StepResponse response, Load.Exerted load, Peak peak) {
    return new DynamicCheck(
        calibration.id(),
        response,
        MeasuredForce.ofNewtons(load.force().newtons(), load.standardUncertaintyNewtons()),
        calibration.force(peak.estimateCounts(), peak.standardUncertaintyCounts()),
        calibration.force(peak.observedMaxCounts(), 0).value().newtons());
  }

  /** Estimated less known, in proportion to known. */
  public double relativeError() {
    return estimated.value().newtons() / known.value().newtons() - 1;
  }

  /**
   * Normalised error: difference over its expanded uncertainty, k = 2 (ISO/IEC 17043's E_n, from
   * memory). Up to 1 the two agree.
   */
  public double normalisedError() {
    double combined =
        Math.hypot(
            known.standardUncertainty().newtons(), estimated.standardUncertainty().newtons());
    double difference = Math.abs(estimated.value().newtons() - known.value().newtons());
    return combined > 0 ? difference / (2 * combined) : 0;
  }

  /** Whether estimate and known force agree within their uncertainties. */
  public boolean agrees() {
    return normalisedError() <= 1;
  }
}
