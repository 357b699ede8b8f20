package snick.cut.estimate;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Force at the break: the loading, known from its early readings alone, is carried on to the
 * equal-area instant of the fall. No shape of the fall is assumed.
 *
 * <p>Keeps from cut to cut what depends on sampling period and length only, so that estimates do
 * not depend on those before. One thread at a time.
 */
public final class BreakEstimator {
  /**
   * A fall touches readings up to so many of its 90 % to 10 % times before its instant: 1 % of a
   * Gaussian edge (2.33 of its standard deviations; they are 2.56 wide).
   */
  private static final double FALL_BEGINS = 0.9;

  /**
   * Falls that begin as late as those of one moving average (0.625) show so in their readings:
   * nothing between is touched that lies on the course; a little earlier, for cascades.
   */
  private static final double BOX_BEGINS = 0.68;

  /** A reading no farther below the line through those before lies on the course, noises. */
  private static final double ON_COURSE_NOISES = 1;

  /** Readings that tell that line: few, for the hand may just have gone on after a pause. */
  private static final int LINE_READINGS = 6;

  /** The kink at the onset is over after so many of them. */
  private static final double ONSET_ENDS = 1.35;

  /** A Gaussian edge takes this many of its standard deviations from 90 % to 10 %. */
  private static final double EDGE_WIDTH = 2.563;

  /** A step between two readings looks this wide, standard deviation, periods. */
  private static final double SAMPLED_EDGE_PERIODS = 0.31;

  /** What is left of an edge's width at least when the sampling's is taken off. */
  private static final double LEAST_EDGE_SHARE = 0.1;

  /**
   * From the beginning of the parting to its equal-area instant, less the lag by which a fixture
   * that a hand holds is slower, s: what to expect of partings of 0.2 to 6 ms. No source; a range.
   */
  private static final double PARTING_SECONDS = 0.0002;

  /** Standard uncertainty of that at most, s: half the longest parting lies 2u off. */
  private static final double PARTING_U_SECONDS = 0.0013;

  /** And of the fall's time: no parting takes longer than the fall that shows it. */
  private static final double PARTING_SHARE = 0.4;

  /**
   * Of the fall's time, by what a fixture's lag under load and after may differ if it swings
   * freely: rigs drawn at random (seeds 1 to 80, 20000 to 20079) differ by 0.1 to 0.3 rms.
   */
  private static final double LAG_SHARE = 0.3;

  /** A fixture that swings under the level after the fall by this share of the height is free. */
  private static final double FREE_SWING = 0.3;

  /** That lag at most, s: 25 Hz, damped by 0.2 in the hand and by hardly anything without. */
  private static final double MOST_LAG_SECONDS = 0.003;

  /**
   * A hand on the filament may damp the fixture up to ten times as much, or not at all: of the lag
   * known from its ringing, by what that under load may differ (an assumption).
   */
  private static final double HELD_LAGS = 2.3;

  /** Readings are never better than this share of the force: no rig is. */
  private static final double LEAST_NOISE_SHARE = 2e-4;

  /** By what share of the force a reading may rise above the loading's line at once. */
  private static final double JUMP_SHARE = 0.15;

  /** And of the noise, and of how far those before swing about that line. */
  private static final double JUMP_NOISES = 8;

  /** What sampling leaves open of the instant of a fall that is wide, periods (an assumption). */
  private static final double WIDE_OPEN_PERIODS = 0.08;

  /** And of one between two readings, which may lie anywhere between: near 1/√12 of a period. */
  private static final double NARROW_OPEN_PERIODS = 0.25;

  /** Shares of the tail over which the area is taken as well: ringing in it makes them differ. */
  private static final double[] OTHER_TAILS = {0.5, 0.7};

  /** Of the greatest difference, what is not known of the instant (an assumption). */
  private static final double TAIL_SHARE = 0.5;

  /** Standard deviation of an instant anywhere between two readings, periods: 1/√12. */
  private static final double BETWEEN_PERIODS_U = 0.29;

  /** A fall of this many periods or more is wide; of this less this width, between two readings. */
  private static final double WIDE_PERIODS = 1.25;

  private static final double BETWEEN_PERIODS = 0.75;

  /** One above so many times the largest reading tells nothing. */
  private static final double MOST_HEIGHTS = 4;

  /** A larger share of the force, and the readings tell nothing of it. */
  private static final double UNSURE_SHARE = 0.3;

  private static final int KEPT_MODELS = 64;

  private final Map<Long, CourseModel> models =
      new LinkedHashMap<>(16, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<Long, CourseModel> eldest) {
          return size() > KEPT_MODELS;
        }
      };

  /** Nothing is kept yet. */
  public BreakEstimator() {}

  /**
   * The force at the break of one loading. Where too few readings tell how the loading went on, the
   * largest reading is a lower bound and little else: the uncertainty says so. Readings that stand
   * above what any loading does at once are marked as not usable in {@code l}.
   */
  public ForceAtBreak estimate(Loading l) {
    leaveOutJumps(l);
    ForceAtBreak e = carriedOn(l);
    double top = largest(l);
    double u = e.budget().standardUncertaintyCounts();
    boolean told = e.forceCounts() < MOST_HEIGHTS * top && u < UNSURE_SHARE * e.forceCounts();
    return told ? e : unsure(e, top);
  }

  /** Anything from the largest reading to three times as much. */
  private static ForceAtBreak unsure(ForceAtBreak e, double top) {
    Budget wide = new Budget(0, top, 0, 0, 0);
    return new ForceAtBreak(2 * top, e.instantSeconds(), e.loadingRateCountsPerSecond(), wide);
  }

  private static double largest(Loading l) {
    double most = 0;
    for (int i = Math.max(l.onset(), l.fall().top() - 2); i < l.fall().bottom(); i++) {
      most = l.usable()[i] ? Math.max(most, l.counts()[i]) : most;
    }
    return most;
  }

  private ForceAtBreak carriedOn(Loading l) {
    EqualArea area = new EqualArea(l, 1);
    int last = lastEarly(l, area);
    int first = Math.max(l.onset() + 1, Math.min(firstClean(l), last - 2));
    EarlyCourse course = course(l, Math.min(first, last), last);
    double noise =
        Math.max(l.noiseCounts(), LEAST_NOISE_SHARE * Math.abs(l.counts()[l.fall().top()]));
    Extrapolation on = new Extrapolation(course, noise, smearSeconds(l), area.swings());
    double near = area.instant(last, course.lineAfter(0), course.slopeCountsPerSecond());
    Extrapolation.Course c = on.at(near - l.timeSeconds()[last]);
    double height = Math.max(c.counts() - area.levelCounts(), noise);
    Instant instant = instant(area, l, last, c, near).with(noiseAndSampling(l, area, height));
    if (l.fall().bottom() == l.fall().top() + 1) {
      instant = instant.and(new Instant(middleSeconds(l), BETWEEN_PERIODS_U * l.periodSeconds()));
    }
    c = on.at(instant.seconds() - l.timeSeconds()[last]);
    return result(l, area, course, c, instant, noise);
  }

  /** The equal-area instant under the loading near one; windows that disagree make it uncertain. */
  private static Instant instant(
      EqualArea area, Loading l, int last, Extrapolation.Course c, double near) {
    double slope = c.slopeCountsPerSecond();
    double base = c.counts() - slope * (near - l.timeSeconds()[last]);
    double instant = area.instant(last, base, slope);
    double most = 0;
    for (double share : OTHER_TAILS) {
      double other = new EqualArea(l, share).instant(last, base, slope);
      most = Math.max(most, Math.abs(other - instant));
    }
    return new Instant(instant, TAIL_SHARE * most);
  }

  private static double noiseAndSampling(Loading l, EqualArea area, double height) {
    return Math.hypot(area.noiseSeconds(height), samplingSeconds(l));
  }

  /** Between the two readings of a fall at once, whatever the swings that follow add up to. */
  private static double middleSeconds(Loading l) {
    return 0.5 * (l.timeSeconds()[l.fall().top()] + l.timeSeconds()[l.fall().bottom()]);
  }

  private static ForceAtBreak result(
      Loading l,
      EqualArea area,
      EarlyCourse course,
      Extrapolation.Course c,
      Instant instant,
      double noise) {
    double height = Math.max(c.counts() - area.levelCounts(), noise);
    double slope = c.slopeCountsPerSecond();
    double kink = 0.5 * slope * square(smearSeconds(l)) / height;
    double steep = Math.hypot(slope, c.slopeUncertainty());
    double doubt = Math.min(c.doubtCounts(), c.uncertaintyCounts());
    double plain = Math.sqrt(square(c.uncertaintyCounts()) - square(doubt));
    return new ForceAtBreak(
        c.counts() - slope * (PARTING_SECONDS - kink),
        instant.seconds(),
        course.slopeCountsPerSecond(),
        new Budget(plain, doubt, steep * instant.uSeconds(), steep * partingSeconds(l, area), 0));
  }

  /** An instant and its standard uncertainty, s. */
  private record Instant(double seconds, double uSeconds) {
    Instant with(double otherSeconds) {
      return new Instant(seconds, Math.hypot(uSeconds, otherSeconds));
    }

    /** The mean of two that know nothing of each other. */
    Instant and(Instant other) {
      double mine = 1 / square(uSeconds);
      double its = 1 / square(other.uSeconds);
      return new Instant(
          (mine * seconds + its * other.seconds) / (mine + its), 1 / Math.sqrt(mine + its));
    }
  }

  private EarlyCourse course(Loading l, int first, int last) {
    int bins = Math.max(1, CourseModel.bins(last - first + 1, l.periodSeconds()));
    long nanos = Math.round(l.periodSeconds() * 1e9);
    CourseModel model =
        models.computeIfAbsent(nanos << 8 | bins, key -> new CourseModel(bins, nanos / 1e9));
    return EarlyCourse.of(l, first, last, model);
  }

  /** A fall between two readings leaves its instant open by a period; wider ones show it. */
  private static double samplingSeconds(Loading l) {
    double periods = l.fall().seconds() / l.periodSeconds();
    double open = Math.max(0, Math.min(1, (WIDE_PERIODS - periods) / BETWEEN_PERIODS));
    return (WIDE_OPEN_PERIODS + NARROW_OPEN_PERIODS * open) * l.periodSeconds();
  }

  private static double partingSeconds(Loading l, EqualArea area) {
    double parting = Math.min(PARTING_SHARE * l.fall().seconds(), PARTING_U_SECONDS);
    return Math.hypot(
        parting, Math.min(unknownLagSeconds(l, area), HELD_LAGS * l.fall().fixtureLagSeconds()));
  }

  /**
   * By what the lag may differ if its ring is not known: a fixture that does not swing after the
   * fall is either fast or damped as much without a hand.
   */
  private static double unknownLagSeconds(Loading l, EqualArea area) {
    double free = Math.min(1, Math.sqrt(area.swingShare() / FREE_SWING));
    return free * Math.min(LAG_SHARE * l.fall().seconds(), MOST_LAG_SECONDS);
  }

  /** Standard deviation of what filter and fixture smear readings by, s. */
  private static double smearSeconds(Loading l) {
    double edge = l.fall().seconds() / EDGE_WIDTH;
    double sampled = SAMPLED_EDGE_PERIODS * l.periodSeconds();
    return Math.sqrt(Math.max(square(LEAST_EDGE_SHARE * edge), edge * edge - sampled * sampled));
  }

  /** Leaves out readings before the bottom that stand above what any loading does at once. */
  private void leaveOutJumps(Loading l) {
    int last = beforeFall(l);
    EarlyCourse course = latest(l, last);
    double end = l.timeSeconds()[last];
    double jump = JUMP_NOISES * Math.hypot(l.noiseCounts(), course.scatterCounts());
    for (int i = last + 1; i < l.fall().bottom(); i++) {
      double line = course.lineAfter(l.timeSeconds()[i] - end);
      l.usable()[i] &= l.counts()[i] - line < JUMP_SHARE * line + jump;
    }
  }

  private static int beforeFall(Loading l) {
    return Math.max(l.onset() + 1, l.fall().top() - 2);
  }

  /** Few readings up to one, whatever the hand did earlier. */
  private EarlyCourse latest(Loading l, int last) {
    int from = Math.max(l.onset() + 1, last - LINE_READINGS + 1);
    return course(l, Math.min(from, last - 1), last);
  }

  /** Last reading that the fall has not touched: surely not, or by what the readings show. */
  private int lastEarly(Loading l, EqualArea area) {
    int last = beforeFall(l);
    EarlyCourse course = latest(l, last);
    double instant = area.instant(last, course.lineAfter(0), course.slopeCountsPerSecond());
    int i = lastBefore(l, instant - FALL_BEGINS * l.fall().seconds());
    int most = lastBefore(l, instant - BOX_BEGINS * l.fall().seconds());
    while (i < most && goesOn(l, i)) {
      i++;
    }
    return i;
  }

  /** Last reading before a time that is none of the fall. */
  private static int lastBefore(Loading l, double seconds) {
    int i = Math.min(l.fall().bottom(), Math.max(l.fall().top(), l.onset() + 1));
    while (i > l.onset() + 1 && l.timeSeconds()[i] > seconds) {
      i--;
    }
    return i;
  }

  /** Whether the reading after one lies where those before lead to, or above. */
  private boolean goesOn(Loading l, int i) {
    int from = Math.max(Math.min(firstClean(l), i - 2), i - LINE_READINGS + 1);
    return from > l.onset()
        && l.counts()[i + 1]
            > course(l, from, i).lineAfter(l.periodSeconds()) - ON_COURSE_NOISES * l.noiseCounts();
  }

  /** First reading that the filter does not join to the rest before. */
  private static int firstClean(Loading l) {
    double from = l.timeSeconds()[l.onset()] + ONSET_ENDS * l.fall().seconds();
    int i = l.onset();
    while (i < l.fall().bottom() && l.timeSeconds()[i] < from) {
      i++;
    }
    return i;
  }

  private static double square(double x) {
    return x * x;
  }
}
