package snick.force.reading;

import java.util.Locale;
import java.util.Optional;
import snick.phrase.Phrase;

/**
 * Mean of the samples while a load, or none, rested on the cell. Absolute, not above zero.
 *
 * @param meanCounts mean reading, counts
 * @param sdCounts standard deviation of one sample about the window's straight line, counts
 * @param samples number of samples, at least 2
 * @param fromNanos device time of the first sample, ns
 * @param toNanos device time of the last sample, ns
 */
public record HeldReading(
    double meanCounts, double sdCounts, int samples, long fromNanos, long toNanos) {
  private static final double FEWEST_COUNTS = 2;
  private static final double STANDARD_ERRORS = 6;

  public HeldReading {
    if (!Double.isFinite(meanCounts) || !(sdCounts >= 0) || samples < 2 || toNanos < fromNanos) {
      throw new IllegalArgumentException(
          "reading of %s counts, SD %s counts, %s samples from %s ns to %s ns"
              .formatted(meanCounts, sdCounts, samples, fromNanos, toNanos));
    }
  }

  /** Variance of the mean if the samples scatter independently, counts². */
  public double meanVariance() {
    return sdCounts * sdCounts / samples;
  }

  /** Why this reading cannot be told from {@code other}; empty if it can. */
  public Optional<Phrase> sameAs(HeldReading other) {
    double change = Math.abs(meanCounts - other.meanCounts());
    double limit =
        Math.max(FEWEST_COUNTS, STANDARD_ERRORS * Math.sqrt(meanVariance() + other.meanVariance()));
    return change > limit
        ? Optional.empty()
        : Optional.of(
            Phrase.of("held.same_as_unloaded", "change", fixed(change), "limit", fixed(limit)));
  }

  private static String fixed(double counts) {
    return String.format(Locale.ROOT, "%.1f", counts);
  }

  /** Middle of the window in device time, ns. */
  public double middleNanos() {
    return fromNanos + (toNanos - fromNanos) / 2.0;
  }
}
