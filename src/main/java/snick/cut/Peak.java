package snick.cut;

/**
 * The force at the instant the filament parted, in counts above the zero before the event, positive
 * in the loading direction whatever the cell's polarity.
 *
 * @param observedMaxCounts the largest sample, spikes left out
 * @param estimateCounts estimate of the force at the break
 * @param standardUncertaintyCounts standard uncertainty of the estimate alone (no calibration), not
 *     negative
 */
public record Peak(
    double observedMaxCounts, double estimateCounts, double standardUncertaintyCounts) {
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
}
