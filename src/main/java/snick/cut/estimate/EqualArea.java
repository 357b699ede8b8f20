package snick.cut.estimate;

/**
 * The equal-area instant of a fall: there the loading, carried on, and the level after it, as an
 * ideal step, enclose the same area as the readings. A linear filter or fixture delays a ramp and
 * the equal-area instant of a step alike, whatever its shape. Ringing after the fall averages out
 * under a window that ends smoothly.
 */
final class EqualArea {
  /**
   * Stretch after the fall over which the area is taken, its weight falling to nothing, s. On 20
   * random rigs of 25 cuts (seeds 20040 to 20059) half as long makes the rms error 0.69 %, twice as
   * long 0.78 %, for 0.57 %.
   */
  private static final double TAIL_SECONDS = 0.15;

  /**
   * A swing after the fall that counts, of the force; and in noises. Half or twice as much, of
   * these and of the next two, changes the rms error there by 0.02 % at most.
   */
  private static final double SWING_SHARE = 0.1;

  private static final double SWING_NOISES = 6;

  /** A fixture of 20 Hz has swung down and up again by then, s. */
  private static final double SWING_SECONDS = 0.06;

  /**
   * From the lowest to the highest of a slow swing at least, s: half a period of 70 Hz. Of 0, 4, 7
   * and 9 ms, tried on seeds 1 to 80 and 20000 to 20079, 7 gives the least rms error (0.480 %; 9 ms
   * 0.490 %), and covers slips better the longer it is.
   */
  private static final double SLOW_SWING_SECONDS = 0.007;

  /** Least weight, in readings, that a mean of the tail is taken of. */
  private static final double LEAST_WEIGHT = 0.3;

  private final Loading l;
  private final double tailSeconds;

  private final double levelCounts;

  private final double noiseSeconds;

  EqualArea(Loading l, double share) {
    this.l = l;
    double left = l.timeSeconds()[l.end() - 1] - l.timeSeconds()[l.fall().bottom()];
    tailSeconds = Math.max(2 * l.periodSeconds(), Math.min(TAIL_SECONDS * share, left));
    levelCounts = level();
    double n = (tailSeconds / 2 + l.fall().seconds()) / l.periodSeconds();
    noiseSeconds = Math.sqrt(Math.max(1, n)) * l.periodSeconds() * l.noiseCounts();
  }

  /** Level just after the fall, counts. */
  double levelCounts() {
    return levelCounts;
  }

  /** Mean of the tail under a bell. */
  private double level() {
    double sum = 0;
    double weights = 0;
    double from = l.timeSeconds()[l.fall().bottom()];
    for (int i = l.fall().bottom() + 1; i < l.end(); i++) {
      double t = (l.timeSeconds()[i] - from) / tailSeconds;
      if (t < 1 && l.usable()[i]) {
        double w = square(StrictMath.sin(Math.PI * t));
        sum += w * l.counts()[i];
        weights += w;
      }
    }
    return weights > LEAST_WEIGHT ? sum / weights : l.fall().levelAfterCounts();
  }

  /**
   * The instant, s, for a loading that is carried on as a line from reading {@code last}.
   *
   * @param lineCounts the line at that reading, counts
   * @param slope its slope, counts/s
   */
  double instant(int last, double lineCounts, double slope) {
    double[] t = l.timeSeconds();
    double h = l.periodSeconds();
    double from = t[last] + 0.5 * h;
    double area = 0;
    double foot = t[l.fall().bottom()];
    for (int i = last + 1; i < l.end() && t[i] < foot + tailSeconds; i++) {
      double w =
          t[i] <= foot ? 1 : 0.5 * (1 + StrictMath.cos(Math.PI * (t[i] - foot) / tailSeconds));
      double y = l.usable()[i] ? l.counts()[i] : between(i);
      area += w * h * (y - levelCounts);
    }
    double height = lineCounts + slope * 0.5 * h - levelCounts;
    // height·x + slope·x²/2 = area
    double inner = height * height + 2 * slope * area;
    if (!(inner > 0) || !(height > 0)) {
      return from + area / Math.max(height, l.noiseCounts());
    }
    return from + 2 * area / (height + Math.sqrt(inner));
  }

  /** Standard deviation of the instant from noise of the readings, for a step of this height, s. */
  double noiseSeconds(double heightCounts) {
    return noiseSeconds / heightCounts;
  }

  /** What stands between the neighbours of a reading left out: the cubic through four of them. */
  private double between(int i) {
    int before = i - 1;
    int after = i + 1;
    while (before > 0 && !l.usable()[before]) {
      before--;
    }
    while (after < l.end() - 1 && !l.usable()[after]) {
      after++;
    }
    double[] y = l.counts();
    boolean four = after - before == 2 && before > 0 && after < l.end() - 1;
    if (four && l.usable()[before - 1] && l.usable()[after + 1]) {
      return (9 * (y[before] + y[after]) - y[before - 1] - y[after + 1]) / 16;
    }
    double share = (i - before) / (double) (after - before);
    return y[before] + share * (y[after] - y[before]);
  }

  /** Whether the readings swing slowly after the fall, by more than noise: down, and up again. */
  boolean swings() {
    double least =
        Math.max(SWING_SHARE * l.counts()[l.fall().top()], SWING_NOISES * l.noiseCounts());
    int lowest = farthest(l.fall().bottom(), -1);
    int highest = farthest(lowest, 1);
    return levelCounts - l.counts()[lowest] > least
        && l.counts()[highest] - levelCounts > least
        && l.timeSeconds()[highest] - l.timeSeconds()[lowest] > SLOW_SWING_SECONDS;
  }

  /** Reading farthest up (1) or down (−1) from one on, as long as a slow swing may take. */
  private int farthest(int from, int sense) {
    double until = l.timeSeconds()[l.fall().bottom()] + SWING_SECONDS;
    int farthest = from;
    for (int i = from; i < l.end() && l.timeSeconds()[i] < until; i++) {
      farthest = sense * (l.counts()[i] - l.counts()[farthest]) > 0 ? i : farthest;
    }
    return farthest;
  }

  /** How far the readings go under the level after the fall at first, of the fall's height. */
  double swingShare() {
    double until = l.timeSeconds()[l.fall().bottom()] + SWING_SECONDS;
    double lowest = levelCounts - 2 * l.noiseCounts();
    for (int i = l.fall().bottom(); i < l.end() && l.timeSeconds()[i] < until; i++) {
      lowest = l.usable()[i] ? Math.min(lowest, l.counts()[i]) : lowest;
    }
    return (levelCounts - lowest)
        / Math.max(l.counts()[l.fall().top()] - levelCounts, l.noiseCounts());
  }

  private static double square(double x) {
    return x * x;
  }
}
