package snick.cut;

import java.util.Optional;
import snick.cut.rest.RunningMedian;
import snick.cut.rest.SampleLog;

/** One event read through: where it began, where it peaked, how it fell. */
final class EventReading {
  // Set by hand. Half and twice as much of each gives the same cuts, errors and uncertainties on 20
  // random rigs of 25 cuts (seeds 20040 to 20059), after rests of 1.5 to 2.5 and of 0.35 to 0.5 s,
  // where nothing else is said.

  private static final double PAIR_NOISES = 60;
  private static final double PAIR_SHARE = 0.15;
  private static final double SLOW_NOISES_PER_SECOND = 15;

  private static final double REBOUND_SHARE = 0.5;

  /**
   * A hand that lets go does not pull: less may be drift or a zero that is not known well. Twice as
   * much takes three and three cuts more of 500 for other events.
   */
  private static final double SWING_BACK_SHARE = 0.15;

  /**
   * Within this after the fall, itself no longer: half a swing of a ring that the rate shows as one
   * of 6 Hz (93 Hz at 99 samples/s, seed 20050), ns. Half as long takes six and three cuts more of
   * 500 for other events, twice as long one and four less.
   */
  private static final double SWINGS_BACK_NANOS = 80e6;

  /** A fixture that swings less than this share of the force spoils no reading of the fall. */
  private static final double RING_SHARE = 0.03;

  /**
   * And what swings by so many noises is no noise, however small: as far as a spike must stand off
   * ({@link Spikes}).
   */
  private static final double RING_NOISES = 6;

  /** Swings of four or five readings look like spikes; two or three of them are a ring. */
  private static final int RING_READINGS = 10;

  private static final int RING_TURNS = 3;

  /** So many readings to either side are near the peak; set by hand. */
  private static final int NEAR_READINGS = 8;

  final Samples s;
  final ZeroBefore zero;
  final int polarity;
  final double noise;
  final double after;
  private final double restLevel;
  final double periodNanos;
  final int onset;
  final int peak;
  final Optional<Fall> fall;
  private final double severedFallNanos;

  private EventReading(
      Event event, ZeroBefore zero, Samples s, double severedFallNanos, boolean spikes) {
    this.s = s;
    this.zero = zero;
    this.severedFallNanos = severedFallNanos;
    this.periodNanos = s.periodNanos;
    polarity = event.polarity();
    noise = event.before().rest().noiseCounts();
    restLevel = polarity * (event.before().rest().fromCounts() - zero.counts());
    int from = Math.max(0, event.began() - 2);
    int to = event.fallen() ? event.fallenAt() + 1 : s.size();
    if (spikes) {
      Spikes.mark(s, noise);
    }
    peak = s.largest(from, to);
    onset = onset(Math.max(event.began(), zero.restsUntil()));
    double fellTo = polarity * (event.fallLevelCounts() - zero.counts());
    Optional<Fall> first = new FallLocator(s, fellTo, severedFallNanos).find(peak, s.size());
    after = first.isPresent() ? fellTo : polarity * (event.levelAfterCounts() - zero.counts());
    fall =
        first.isPresent()
            ? first
            : new FallLocator(s, after, severedFallNanos).find(peak, s.size());
  }

  /**
   * Reads an event through.
   *
   * @param spikes whether to look for spikes, which swings of four or five readings look like
   */
  static EventReading of(Event event, double severedFallNanos, boolean spikes) {
    double periodNanos = event.before().periodNanos();
    ZeroBefore zero = ZeroBefore.of(event, periodNanos);
    SampleLog log = event.log();
    int evenFrom = event.gaps().loaded().isEmpty() ? event.gaps().evenFrom() : log.size();
    Samples s = Samples.of(log, zero.counts(), event.polarity(), periodNanos, evenFrom);
    return new EventReading(event, zero, s, severedFallNanos, spikes);
  }

  /** Whether a spike was left out near the peak; to be asked after the estimate. */
  boolean spikeNearPeak() {
    return leftOut(peak - NEAR_READINGS, peak + NEAR_READINGS);
  }

  /** Whether spikes were left out after the peak, and none before. */
  boolean spikeInFall() {
    return leftOut(peak + 1, peak + NEAR_READINGS) && !leftOut(peak - NEAR_READINGS, peak + 1);
  }

  private boolean leftOut(int from, int to) {
    boolean any = false;
    for (int i = Math.max(0, from); i < Math.min(s.size(), to); i++) {
      any |= !s.usable[i];
    }
    return any;
  }

  /** Whether the readings swing about the level that they fell to, as no spike makes them. */
  boolean rings() {
    int turns = 0;
    int side = 0;
    int from = fall.isPresent() ? fall.get().bottom() : s.size();
    double least = Math.min(RING_SHARE * height(), RING_NOISES * noise);
    for (int i = from; i < Math.min(s.size(), from + RING_READINGS); i++) {
      double off = s.x[i] - after;
      int now = Math.abs(off) < least ? side : (int) Math.signum(off);
      turns += now == -side && side != 0 ? 1 : 0;
      side = now;
    }
    return turns >= RING_TURNS;
  }

  /** Back from the sample that began the event to the last one within two noise widths of rest. */
  private int onset(int began) {
    int i = Math.min(began, peak);
    while (i > 0 && !(s.usable[i] && s.x[i] < Math.max(0, restLevel) + 2 * noise)) {
      i--;
    }
    return i;
  }

  /** Whether the fall took no longer than this, periods; a spike in it does not count. */
  boolean fellWithin(double periods) {
    return fall.isEmpty() || fall.get().periods() <= periods || calmFallPeriods() <= periods;
  }

  /**
   * Whether the fall took less than half a swing of the slowest fixture: too short for steps that a
   * ring could not make as well.
   */
  boolean fellAtOnce() {
    return fall.isPresent() && fall.get().periods() * periodNanos < 0.5 * Course.SWING_NANOS;
  }

  /**
   * Whether the readings swing below zero as soon as a ring does: no hand lets go like that,
   * however slow the fall looks for a ring that the rate cannot show.
   */
  boolean swingsBack() {
    if (fall.isEmpty() || RunningMedian.isSlow(periodNanos)) {
      return false;
    }
    double soon = SWINGS_BACK_NANOS / periodNanos;
    int to = Math.min(s.size(), fall.get().bottom() + (int) soon);
    double lowest = 0;
    for (int i = fall.get().bottom(); i < to; i++) {
      lowest = s.usable[i] ? Math.min(lowest, s.x[i]) : lowest;
    }
    return fall.get().periods() < soon && -lowest > SWING_BACK_SHARE * height();
  }

  private double calmFallPeriods() {
    Samples calm = s.calmed();
    return new FallLocator(calm, after, severedFallNanos)
        .find(calm.largest(Math.max(onset, s.firstCalmed()), calm.size()), calm.size())
        .map(Fall::periods)
        .orElse(Double.POSITIVE_INFINITY);
  }

  /** Largest reading above zero, counts. */
  double height() {
    return s.x[peak];
  }

  /** The same once the estimate has left out spikes of its own. */
  double observedMax() {
    return s.usable[peak] ? height() : s.x[s.largest(onset, s.size())];
  }

  /** Mean slope up to the peak, counts/s. */
  double meanSlopeCountsPerSecond() {
    double periods = s.time[peak] - s.time[onset];
    return periods > 0 ? height() / (periods * periodNanos / 1e9) : 0;
  }

  /** How far the reading went below zero after the fall, spikes left out, counts. */
  double reboundCounts() {
    int from = fall.isPresent() ? fall.get().bottom() : s.size();
    double[] x = s.x;
    double lowest = 0;
    for (int i = Math.max(1, from); i + 1 < x.length; i++) {
      double middle = RunningMedian.ofThree(x[i - 1], x[i], x[i + 1]);
      lowest = middle < lowest ? middle : lowest;
    }
    return -lowest;
  }

  /**
   * Whether the reading stood high for two samples only, too short for any cut seen through a
   * filter unless it was small; slow rates cannot tell.
   */
  boolean spikePair() {
    if (height() < PAIR_NOISES * noise || RunningMedian.isSlow(periodNanos)) {
      return false;
    }
    int high = 0;
    for (int i = onset; i < s.size(); i++) {
      high += Math.abs(s.x[i]) > PAIR_SHARE * height() ? 1 : 0;
    }
    return high <= 2;
  }

  /** Whether the reading wandered off so slowly that it was drift. */
  boolean slow() {
    int half = onset;
    while (half < peak && s.x[half] < 0.5 * height()) {
      half++;
    }
    double seconds = (s.time[half] - s.time[onset]) * periodNanos / 1e9;
    return 0.5 * height() < SLOW_NOISES_PER_SECOND * noise * seconds;
  }

  /**
   * Whether the reading rose at once, like a knock, which then swings as far the other way; slow
   * rates cannot tell.
   */
  boolean impulsive() {
    int top = fall.isPresent() ? fall.get().top() : peak;
    boolean swings = reboundCounts() > REBOUND_SHARE * height();
    boolean brief = (s.time[top] - s.time[onset]) * periodNanos < Course.SWING_NANOS;
    return (top - onset < 2 || (brief && swings)) && !RunningMedian.isSlow(periodNanos);
  }
}
