package snick.force.check;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.statistics.descriptive.Median;
import org.apache.commons.statistics.descriptive.StandardDeviation;

/** Samples of a rig at rest and what can be said about them. Immutable. */
final class RestSeries {
  private static final int BLOCK = 64;
  private static final double OUTLIER = 8;
  private static final Median MEDIAN = Median.withDefaults();
  private static final int MOST_FOR_TONES = 65_536;

  private final double[] seconds;
  private final int[] counts;
  private final double noise;
  private final double slope;
  private final double intercept;

  /** Takes its arguments over; at least two samples, times not falling. */
  RestSeries(long[] nanos, int[] counts) {
    this.seconds = Arrays.stream(nanos).mapToDouble(t -> (t - nanos[0]) / 1e9).toArray();
    this.counts = counts;
    this.noise = blockNoise();
    double[] line = robustLine();
    this.intercept = line[0];
    this.slope = line[1];
  }

  int size() {
    return counts.length;
  }

  /** Median of the standard deviations of blocks of 64 samples, counts: spikes do not count. */
  private double blockNoise() {
    List<Double> deviations = new ArrayList<>();
    for (int from = 0; from < counts.length; from += BLOCK) {
      int to = Math.min(counts.length, from + BLOCK);
      if (to - from >= 2) {
        deviations.add(StandardDeviation.of(part(from, to)).getAsDouble());
      }
    }
    return MEDIAN.evaluate(deviations.stream().mapToDouble(d -> d).toArray());
  }

  double noiseCounts() {
    return noise;
  }

  /** Line through block medians by least squares: intercept in counts, slope in counts/s. */
  private double[] robustLine() {
    List<double[]> middles = new ArrayList<>();
    for (int from = 0; from < counts.length; from += BLOCK) {
      int to = Math.min(counts.length, from + BLOCK);
      if (to - from < BLOCK / 2 && from > 0) {
        break;
      }
      middles.add(
          new double[] {(seconds[from] + seconds[to - 1]) / 2, MEDIAN.evaluate(part(from, to))});
    }
    double meanTime = middles.stream().mapToDouble(m -> m[0]).average().orElse(0);
    double mean = middles.stream().mapToDouble(m -> m[1]).average().orElse(0);
    double square = 0;
    double cross = 0;
    for (double[] m : middles) {
      square += (m[0] - meanTime) * (m[0] - meanTime);
      cross += (m[0] - meanTime) * (m[1] - mean);
    }
    double slopePerSecond = square > 0 ? cross / square : 0;
    return new double[] {mean - slopePerSecond * meanTime, slopePerSecond};
  }

  private double[] part(int from, int to) {
    return Arrays.stream(counts, from, to).asDoubleStream().toArray();
  }

  double driftCountsPerMinute() {
    return 60 * slope;
  }

  /** Most readings in a row that are the same. */
  int longestRepeat() {
    int longest = 1;
    int run = 1;
    for (int i = 1; i < counts.length; i++) {
      run = counts[i] == counts[i - 1] ? run + 1 : 1;
      longest = Math.max(longest, run);
    }
    return longest;
  }

  /** Share of readings that equal the one before. */
  double repeatedShare() {
    int repeated = 0;
    for (int i = 1; i < counts.length; i++) {
      if (counts[i] == counts[i - 1]) {
        repeated++;
      }
    }
    return repeated / (double) (counts.length - 1);
  }

  private boolean stray(int i) {
    double away = Math.abs(counts[i] - intercept - slope * seconds[i]);
    return away > OUTLIER * Math.max(1, noise);
  }

  /** Readings of the form 2^n − 1, n from 8 to 23, far from the others. */
  int allOnes() {
    int found = 0;
    for (int i = 0; i < counts.length; i++) {
      boolean ones = counts[i] >= 255 && (counts[i] & (counts[i] + 1)) == 0;
      if (ones && stray(i)) {
        found++;
      }
    }
    return found;
  }

  /** Single readings far from both neighbours. */
  int spikes() {
    int found = 0;
    for (int i = 1; i < counts.length - 1; i++) {
      if (stray(i) && !stray(i - 1) && !stray(i + 1)) {
        found++;
      }
    }
    return found;
  }

  /**
   * A sine in the samples.
   *
   * @param hertz frequency as sampled
   * @param amplitudeCounts its amplitude, counts
   * @param significance power over that of white noise of this size; above 12 chance is unlikely
   */
  record Tone(double hertz, double amplitudeCounts, double significance) {}

  /**
   * The strongest sine between two frequencies: periodogram at the samples' own times, of the first
   * 65 536 samples at most.
   */
  Tone strongest(double fromHertz, double toHertz) {
    double step = 0.5 / seconds[Math.min(seconds.length, MOST_FOR_TONES) - 1];
    Tone best = new Tone(fromHertz, 0, 0);
    for (double hertz = fromHertz; hertz <= toHertz; hertz += step) {
      Tone tone = tone(hertz);
      best = tone.amplitudeCounts() > best.amplitudeCounts() ? tone : best;
    }
    return best;
  }

  private Tone tone(double hertz) {
    double cosine = 0;
    double sine = 0;
    int used = 0;
    for (int i = 0; i < Math.min(counts.length, MOST_FOR_TONES); i++) {
      if (!stray(i)) {
        double value = counts[i] - intercept - slope * seconds[i];
        double phase = 2 * Math.PI * hertz * seconds[i];
        cosine += value * Math.cos(phase);
        sine += value * Math.sin(phase);
        used++;
      }
    }
    double amplitude = used > 0 ? 2 * Math.hypot(cosine, sine) / used : 0;
    double variance = Math.max(noise, 0.3) * Math.max(noise, 0.3);
    return new Tone(hertz, amplitude, amplitude * amplitude * used / (4 * variance));
  }
}
