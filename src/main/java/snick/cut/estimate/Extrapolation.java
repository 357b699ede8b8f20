package snick.cut.estimate;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * A loading carried on beyond its last early reading. Hypotheses are not picked but averaged over
 * by their evidence, each with an equal prior. The noise is known from rest only, and may be larger
 * under load; where the latest readings came further from what those before led to expect than they
 * should (the backtest), the uncertainty grows by as much.
 */
final class Extrapolation {
  /** As if the noise had been seen in so many readings under load beforehand. */
  private static final double NOISE_DEGREES = 8;

  /** Readings of the backtest: the last bins, each one period or somewhat more. */
  private static final int TESTED = 6;

  /** Readings that lie nearer than expected do not make variances smaller than this times. */
  private static final double LEAST_SCALE = 0.7;

  /** Hypotheses less likely than the best by a factor of e to this count for nothing. */
  private static final double FAR_BEHIND = 8;

  /** Over which a slope is taken, s. */
  private static final double SLOPE_SECONDS = 1e-3;

  /**
   * What makes a fixture swing is the force: slips about as high as its swings. Standard deviation
   * of a sawtooth of that height, 1/√12.
   */
  private static final double SLIPS_OF_SWING = 0.29;

  /** A filter's effect on tremor is undone up to this factor. */
  private static final double MOST_GAIN = 3;

  private final EarlyCourse course;
  private final double noiseCounts;
  private final double smearSeconds;
  private final List<Weighed> weighed = new ArrayList<>();
  private double weights;

  /** A hypothesis held against the readings. */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  private record Weighed(
      Hypothesis of, double[] white, double weight, double scale, double roughVariance) {}

  /** A force and its slope as one hypothesis carries them on, noises above the line. */
  private record Carried(double mean, double variance, double slope, double slopeVariance) {}

  /**
   * Weighs all hypotheses.
   *
   * @param smearSeconds standard deviation of what smears readings in time, s: a motion shows
   *     weaker than it is
   * @param swings whether the fixture is seen to swing
   */
  Extrapolation(EarlyCourse course, double noiseCounts, double smearSeconds, boolean swings) {
    this.course = course;
    this.noiseCounts = noiseCounts;
    this.smearSeconds = smearSeconds;
    List<Hypothesis> hypotheses = course.model().hypotheses(swings);
    double[][] white = new double[hypotheses.size()][];
    double[] evidence = new double[white.length];
    double best = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < white.length; i++) {
      white[i] = hypotheses.get(i).whiten(course.offCounts(), 1 / noiseCounts);
      evidence[i] = hypotheses.get(i).logPrior() + evidence(hypotheses.get(i), white[i]);
      best = Math.max(best, evidence[i]);
    }
    for (int i = 0; i < white.length; i++) {
      if (evidence[i] > best - FAR_BEHIND) {
        double weight = StrictMath.exp(evidence[i] - best);
        weights += weight;
        double rough = roughVariance(hypotheses.get(i), white[i]);
        weighed.add(new Weighed(hypotheses.get(i), white[i], weight, scale(white[i]), rough));
      }
    }
  }

  private static double evidence(Hypothesis h, double[] white) {
    double chi = dot(white, white);
    double exponent = 0.5 * (NOISE_DEGREES + white.length);
    return -h.halfLogDeterminant() - exponent * StrictMath.log1p(chi / NOISE_DEGREES);
  }

  /** By how much variances are larger than expected; of the latest readings if they say so. */
  private static double scale(double[] white) {
    int n = white.length;
    double late = 0;
    int from = Math.max(0, n - TESTED);
    for (int i = from; i < n; i++) {
      late += white[i] * white[i];
    }
    double tested = (NOISE_DEGREES + late) / (NOISE_DEGREES + n - from);
    return Math.max(LEAST_SCALE, Math.max(allScale(white), tested));
  }

  private static double allScale(double[] white) {
    return (NOISE_DEGREES + dot(white, white)) / (NOISE_DEGREES + white.length);
  }

  /**
   * Variance of the force itself at any instant, noises squared: readings that scatter more than at
   * rest may do so because the edge slips, and slips may make the fixture swing.
   */
  private static double roughVariance(Hypothesis h, double[] white) {
    double slips = SLIPS_OF_SWING * SLIPS_OF_SWING * h.swingVariance();
    return Math.max(0, allScale(white) - 1) + slips;
  }

  /** The course so many seconds after the last early reading. */
  Course at(double seconds) {
    Map<Motion, double[]> now = new EnumMap<>(Motion.class);
    Map<Motion, double[]> soon = new EnumMap<>(Motion.class);
    double mean = 0;
    double square = 0;
    double slope = 0;
    double slopeSquare = 0;
    double plain = 0;
    for (Weighed w : weighed) {
      Motion kind = w.of().motion();
      Carried c =
          carry(
              w,
              seconds,
              now.computeIfAbsent(kind, m -> motionAcross(m, seconds)),
              soon.computeIfAbsent(kind, m -> motionAcross(m, seconds + SLOPE_SECONDS)));
      double share = w.weight() / weights;
      mean += share * c.mean();
      square += share * (c.variance() + c.mean() * c.mean());
      plain += share * (c.variance() / w.scale());
      slope += share * c.slope();
      slopeSquare += share * (c.slopeVariance() + c.slope() * c.slope());
    }
    double variance = Math.max(0, square - mean * mean);
    double tested = Math.max(0, variance - plain);
    return new Course(
        course.lineAfter(seconds) + noiseCounts * mean,
        noiseCounts * Math.sqrt(variance),
        course.slopeCountsPerSecond() + noiseCounts * slope,
        noiseCounts * Math.sqrt(Math.max(0, slopeSquare - slope * slope)),
        noiseCounts * Math.sqrt(tested));
  }

  /**
   * A loading at one instant.
   *
   * @param counts force, counts
   * @param uncertaintyCounts its standard uncertainty, counts
   * @param slopeCountsPerSecond slope, the hand's motion included, counts/s
   * @param slopeUncertainty its standard uncertainty, counts/s
   * @param doubtCounts what of the uncertainty comes from the backtest and from hypotheses that
   *     disagree, counts
   */
  record Course(
      double counts,
      double uncertaintyCounts,
      double slopeCountsPerSecond,
      double slopeUncertainty,
      double doubtCounts) {}

  private Carried carry(Weighed w, double seconds, double[] now, double[] soon) {
    Hypothesis h = w.of();
    double gain = gain(h.motion());
    double later = seconds + SLOPE_SECONDS;
    double[] at = h.whiten(h.across(seconds, now, gain), 1);
    double[] after = h.whiten(h.across(later, soon, gain), 1);
    double mean = dot(at, w.white());
    double variance = h.prior(seconds, seconds, gain) - dot(at, at);
    double varianceAfter = h.prior(later, later, gain) - dot(after, after);
    double both = h.prior(seconds, later, gain) - dot(at, after);
    double slope = (dot(after, w.white()) - mean) / SLOPE_SECONDS;
    double slopeVariance =
        w.scale()
            * Math.max(0, variance + varianceAfter - 2 * both)
            / (SLOPE_SECONDS * SLOPE_SECONDS);
    CrossingWeight weighed =
        CrossingWeight.of(
            mean,
            w.scale() * Math.max(0, variance),
            course.slopeCountsPerSecond() / noiseCounts + slope,
            slopeVariance,
            w.scale() * (both - variance) / SLOPE_SECONDS);
    double carried = Math.max(0, weighed.variance()) + w.roughVariance();
    return new Carried(weighed.mean(), carried, slope, slopeVariance);
  }

  /** By what the filter weakened a motion. */
  private double gain(Motion motion) {
    if (motion.ofFixture()) {
      return 0;
    }
    return Math.min(MOST_GAIN, 1 / motion.leftBehind(smearSeconds));
  }

  private double[] motionAcross(Motion motion, double seconds) {
    double[] across = new double[course.model().bins()];
    for (int i = 0; i < across.length; i++) {
      across[i] = motion.correlation(course.model().seconds(i) - seconds);
    }
    return across;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }
}
