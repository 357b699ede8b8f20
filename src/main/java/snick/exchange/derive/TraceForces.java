package snick.exchange.derive;

import java.util.Optional;
import java.util.OptionalDouble;
import snick.force.budget.Calibration;

/**
 * Force of each reading of a cut, N: what its calibration makes of the reading above the zero
 * before the cut, in loading direction.
 *
 * @param calibration the cut's calibration, if it has a force
 * @param polarity +1 if load raises the reading, −1 if it lowers it
 * @param zeroCounts reading at rest before, counts
 */
public record TraceForces(Optional<Calibration> calibration, int polarity, double zeroCounts) {
  public OptionalDouble newtons(int counts) {
    return calibration.isPresent() && !Double.isNaN(zeroCounts)
        ? OptionalDouble.of(calibration.get().newtons(polarity * (counts - zeroCounts)))
        : OptionalDouble.empty();
  }
}
