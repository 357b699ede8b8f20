package snick.cut;

import java.util.Optional;
import snick.cut.estimate.Budget;

/**
 * The force at the instant the filament parted, in counts above the zero before the event, positive
 * in the loading direction whatever the cell's polarity.
 *
 * @param observedMaxCounts the largest sample, spikes left out
 * @param estimateCounts estimate of the force at the break
 * @param standardUncertaintyCounts standard uncertainty of the estimate alone (no calibration), not
 *     negative
 * @param budget what makes that uncertainty; empty if it was read back or nothing parted
 */
public record Peak(
    double observedMaxCounts,
    double estimateCounts,
    double standardUncertaintyCounts,
    Optional<Budget> budget) {
  public Peak {
    if (!Double.isFinite(observedMaxCounts)
        || !Double.isFinite(estimateCounts)
        || !(standardUncertaintyCounts >= 0)) {
      throw new IllegalArgumentException(
          "peak of "
              + estimateCounts
              + " counts, largest "
              + observedMaxCounts
              + ", standard uncertainty "
              + standardUncertaintyCounts);
    }
  }

  /** A peak whose uncertainty is not taken apart. */
  public Peak(double observedMaxCounts, double estimateCounts, double standardUncertaintyCounts) {
    this(observedMaxCounts, estimateCounts, standardUncertaintyCounts, Optional.empty());
  }
}
