package snick.cut.estimate;

import java.util.ArrayList;
import java.util.List;

/**
 * What so many bins of readings at one sampling period can tell of how a loading goes on, whatever
 * the readings: a list of hypotheses, each a straight line, a wander (integrated Wiener process,
 * the model behind a smoothing spline), a motion of the hand and noise of known strength, with the
 * factors of its covariance. Bins are in order of time, the newest last. All strengths in noises.
 * Immutable.
 */
final class CourseModel {
  /** Bins at most: the work grows with the square. */
  private static final int MOST_BINS = 30;

  /** Longest stretch looked at, s: some periods of a hand's tremor. */
  private static final double LONGEST_SECONDS = 0.7;

  /** Widest bin, s: a quarter of the shortest period of tremor that is told from noise. */
  private static final double WIDEST_SECONDS = 0.010;

  /** Bins of one width before they double. */
  private static final int SAME_WIDTH = 8;

  /**
   * So many bins and fewer tell nothing of the hand; each more makes an even one likelier, to about
   * as likely as all motions together when all bins are full (an assumption).
   */
  private static final int NOT_TELLING = 5;

  /**
   * Strengths of a motion tried, rms, noises: geometric, from hardly seen to a shaking hand. Five
   * from 1.5 to 60 cost half as much again and gave the same errors (seeds 1 to 80 and 20000 to
   * 20079: rms 0.50 and 0.55 %; with these 0.50 and 0.56 %).
   */
  private static final double[] MOTION_NOISES = {2, 10, 50};

  /**
   * The same of the wander: standard deviation after a tenth of a second, noises. Three from 0.15
   * to 15 cost half as much again and gave the same errors (the same seeds: rms 0.48 % either way).
   */
  private static final double[] WANDER_NOISES = {0.3, 8};

  private final double[] seconds;
  private final int[] readings;
  private final int allReadings;
  private final List<Hypothesis> hypotheses = new ArrayList<>();
  private final List<Hypothesis> rigid;

  /** A model of so many bins, at most as many as {@link #bins(int, double)} gives. */
  CourseModel(int bins, double periodSeconds) {
    readings = new int[bins];
    seconds = new double[bins];
    int back = 0;
    for (int i = 0; i < bins; i++) {
      int width = width(i, periodSeconds);
      readings[bins - 1 - i] = width;
      seconds[bins - 1 - i] = -(back + 0.5 * (width - 1)) * periodSeconds;
      back += width;
    }
    allReadings = back;
    for (Motion motion : Motion.values()) {
      double[][] correlations = correlations(motion);
      for (double strength : motion == Motion.NONE ? new double[1] : MOTION_NOISES) {
        for (double wander : WANDER_NOISES) {
          hypotheses.add(
              new Hypothesis(this, motion, correlations, strength, wander, logPrior(motion)));
        }
      }
    }
    rigid = hypotheses.stream().filter(h -> !h.motion().ofFixture()).toList();
  }

  /** Few readings do not tell an even hand from a moving one, so the less it is expected. */
  private double logPrior(Motion motion) {
    return motion == Motion.NONE ? StrictMath.log(Math.max(1, bins() - NOT_TELLING)) : 0;
  }

  private double[][] correlations(Motion motion) {
    double[][] of = new double[bins()][bins()];
    for (int i = 0; i < of.length; i++) {
      for (int j = 0; j <= i; j++) {
        of[i][j] = motion.correlation(seconds[i] - seconds[j]);
        of[j][i] = of[i][j];
      }
    }
    return of;
  }

  /** Into how many bins so many readings go; few numbers, so that few models are made. */
  static int bins(int readings, double periodSeconds) {
    int most = (int) Math.min(readings, LONGEST_SECONDS / periodSeconds);
    int bins = 0;
    int used = 0;
    while (bins < MOST_BINS && used + width(bins, periodSeconds) <= most) {
      used += width(bins, periodSeconds);
      bins++;
    }
    int step = Math.max(1, Integer.highestOneBit(bins) >> 2);
    return bins == MOST_BINS ? bins : bins / step * step;
  }

  /** Readings of a bin, 0 for the newest. */
  private static int width(int bin, double periodSeconds) {
    int widest = Math.max(1, (int) (WIDEST_SECONDS / periodSeconds));
    return Math.min(widest, 1 << (bin / SAME_WIDTH));
  }

  int bins() {
    return seconds.length;
  }

  /** Middle of a bin after the last reading, s; not positive. */
  double seconds(int bin) {
    return seconds[bin];
  }

  /** Readings of a bin. */
  int readings(int bin) {
    return readings[bin];
  }

  /** Its share of all readings. */
  double share(int bin) {
    return readings[bin] / (double) allReadings;
  }

  /** All, those with a swinging fixture only if it is seen to swing. */
  List<Hypothesis> hypotheses(boolean swings) {
    return swings ? hypotheses : rigid;
  }
}
