package snick.cut;

import java.util.ArrayList;
import java.util.List;
import snick.sample.Gap;

/**
 * The event at hand: its samples, and how far it has come. Levels are judged on the median of the
 * last readings, so that a spike neither ends an event nor makes its peak.
 */
final class Event {
  /** What a sample did to the event. */
  enum Step {
    /** More is to come. */
    GOES_ON,
    /** At rest again, or too long. */
    ENDED,
    /** The next loading began before the rest after this one was long enough. */
    LOADED_AGAIN
  }

  /** Why no more samples come. */
  enum End {
    SETTLED,
    /** The level moved and stays: no loading. */
    ABSORBED,
    TOO_LONG,
    CUT_OFF
  }

  /** Readings above zero below this fraction of the peak count as fallen. */
  static final double FALLEN_FRACTION = 0.12;

  /** Share of the band that begins an event below which the reading counts as fallen. */
  private static final double FALLEN_BAND = 0.5;

  private static final int MOST_SAMPLES = 1 << 20;
  private static final long STANDS_NANOS = 500_000_000L;
  private static final long MOVED_NANOS = 5_000_000_000L;
  private static final double SMALL_NOISES = 20;
  private static final double RISE_NANOS = 25e6;

  /** A lower peak that is followed by more load at once was an unsteady touch, not a loading. */
  private static final double TOUCH_NOISES = 45;

  private static final int FLAT_BLOCKS = 3;

  private final DetectorSettings settings;
  private final SampleLog log = new SampleLog();
  private final List<Gap> gapsAtRest = new ArrayList<>();
  private final List<Gap> gaps = new ArrayList<>();
  private int evenFrom;
  private boolean active;
  private Step step = Step.GOES_ON;
  private int polarity;
  private int usualPolarity;
  private double zero;
  private double noise;
  private double trigger;
  private boolean zeroSure;
  private int before;
  private long beganNanos;
  private boolean anyOverrange;
  private End end;

  private final RunningMedian median = new RunningMedian();
  private double last;
  private double peak;
  private boolean fallen;
  private int fallenAt;
  private long fallenNanos;
  private int risen;
  private final FlatWatch flat = new FlatWatch();
  private double levelAfter;

  Event(DetectorSettings settings) {
    this.settings = settings;
  }

  void begin(int side, int usual, RestTracker rest, RestRing ring, double periodNanos) {
    usualPolarity = usual;
    active = true;
    polarity = side;
    zero = rest.levelCounts();
    noise = rest.noiseCounts();
    trigger = rest.triggerCounts();
    zeroSure = rest.blocks() >= FLAT_BLOCKS;
    log.clear();
    anyOverrange = false;
    ring.copyTo(log, settings.restKeptNanos());
    before = log.size();
    beganNanos = log.nanos(before - 1);
    takeGaps(ring, periodNanos);
    last = 0;
    median.restart(periodNanos, (int) (side > 0 ? Math.floor(zero) : Math.ceil(zero)));
    peak = 0;
    fallen = false;
    risen = 0;
    flat.restart(trigger);
    end = End.SETTLED;
    levelAfter = zero;
    for (int i = Math.max(0, before - 3); i < before; i++) {
      anyOverrange |= log.overrange(i);
      track(log.counts(i));
    }
  }

  /** Missing samples this short before the event are taken for a part of it. */
  private void takeGaps(RestRing ring, double periodNanos) {
    gaps.clear();
    gapsAtRest.clear();
    int unsure = Math.min(before, 1 + ZeroBefore.leftOut(periodNanos));
    ring.gaps(1, unsure, gaps);
    evenFrom = before - ring.gaps(unsure, before, gapsAtRest);
  }

  void close() {
    active = false;
  }

  /** Takes samples {@code from..to}, up to one that makes {@link #step} tell; behind the last. */
  int samples(long[] nanos, int[] counts, int from, int to, double periodNanos) {
    int index = log.size();
    log.add(nanos, counts, from, to);
    step = Step.GOES_ON;
    int at = from;
    while (at < to && step == Step.GOES_ON) {
      step = sample(index++, nanos[at], counts[at], periodNanos);
      at++;
    }
    log.keep(index);
    return at;
  }

  private Step sample(int index, long nanos, int counts, double periodNanos) {
    double middle = track(counts);
    flat.add(nanos, last);
    if (fallen) {
      return afterFall(index, nanos, middle, periodNanos);
    }
    if (middle < FALLEN_BAND * trigger || middle < FALLEN_FRACTION * peak) {
      fallen = true;
      fallenAt = index;
      fallenNanos = nanos;
      risen = 0;
    } else if (flat.flatFor(STANDS_NANOS)) {
      return standing(index, nanos);
    }
    return bounded(index, nanos);
  }

  /** Flat away from zero: after a fall that is its end; else it may be a level that moved. */
  private Step standing(int index, long nanos) {
    boolean fell = flat.level() < 0.5 * peak;
    boolean otherWay = polarity == -usualPolarity;
    boolean low = peak < SMALL_NOISES * noise && flat.flatFor(MOVED_NANOS);
    if (!fell && !otherWay && !low) {
      return bounded(index, nanos);
    }
    end = fell ? End.SETTLED : End.ABSORBED;
    levelAfter = zero + polarity * flat.level();
    return Step.ENDED;
  }

  private double track(int counts) {
    last = polarity * (counts - zero);
    double middle = polarity * (median.add(counts) - zero);
    peak = middle > peak ? middle : peak;
    return middle;
  }

  private Step afterFall(int index, long nanos, double middle, double periodNanos) {
    risen = middle > trigger && middle > FALLEN_FRACTION * peak ? risen + 1 : 0;
    if (risen >= 3 && peak < TOUCH_NOISES * noise) {
      fallen = false;
      return bounded(index, nanos);
    }
    if (risen >= 3 && risen >= RISE_NANOS / periodNanos) {
      levelAfter = meanAfterFall(index - 1 - risen);
      return Step.LOADED_AGAIN;
    }
    boolean touch = peak < TOUCH_NOISES * noise;
    long patience = settings.settleNanos() * (touch ? 2 : 1);
    long wait = Math.max(patience, Math.round(8 * periodNanos));
    if (nanos - fallenNanos >= wait) {
      levelAfter = meanAfterFall(index + 1);
      return Step.ENDED;
    }
    return bounded(index, nanos);
  }

  /** Median of the readings since the fall, but its first two, before index {@code to}. */
  private double meanAfterFall(int to) {
    int from = Math.min(fallenAt + 2, to - 1);
    from = Math.max(from, 0);
    if (to <= from) {
      return zero;
    }
    int[] readings = log.copyOfCounts(from, to);
    int lower = (readings.length - 1) / 2;
    int upper = readings.length / 2;
    Selection.place(readings, 0, readings.length, lower);
    Selection.place(readings, lower, readings.length, upper);
    return 0.5 * ((double) readings[lower] + readings[upper]);
  }

  private Step bounded(int index, long nanos) {
    boolean tooLong = nanos - beganNanos > settings.maximumEventNanos();
    if (!tooLong && index + 1 < MOST_SAMPLES) {
      return Step.GOES_ON;
    }
    end = End.TOO_LONG;
    levelAfter = zero + polarity * last;
    return Step.ENDED;
  }

  Step overrange(long nanos, int code) {
    log.add(nanos, code, true);
    anyOverrange = true;
    return bounded(log.size() - 1, nanos);
  }

  void gap(Gap gap) {
    if (gaps.size() < RestRing.MOST_GAPS) {
      gaps.add(gap);
    }
  }

  void truncate(Gap gap) {
    gap(gap);
    end = End.CUT_OFF;
  }

  void streamEnds() {
    end = End.CUT_OFF;
  }

  /** What the last sample did. */
  Step step() {
    return step;
  }

  boolean active() {
    return active;
  }

  int polarity() {
    return polarity;
  }

  double zeroCounts() {
    return zero;
  }

  double noiseCounts() {
    return noise;
  }

  double triggerCounts() {
    return trigger;
  }

  boolean zeroSure() {
    return zeroSure;
  }

  boolean anyOverrange() {
    return anyOverrange;
  }

  End end() {
    return end;
  }

  boolean fallen() {
    return fallen;
  }

  /** Index of the sample that began the event. */
  int began() {
    return before - 1;
  }

  SampleLog log() {
    return log;
  }

  /** Missing samples while the filament was loaded, or might have been. */
  List<Gap> gaps() {
    return gaps;
  }

  /** Missing samples in the rest before and since, in order. */
  List<Gap> allGaps() {
    List<Gap> all = new ArrayList<>(gapsAtRest);
    all.addAll(gaps);
    return all;
  }

  /** Index of the sample after the last gap in the rest before; 0 if there is none. */
  int evenFrom() {
    return evenFrom;
  }

  /** Reading at rest after the event; the zero before if none is known, counts. */
  double levelAfterCounts() {
    return levelAfter;
  }

  /** How many of the newest samples belong to the rest after the event. */
  int restSamplesAfter() {
    return fallen ? Math.max(0, log.size() - fallenAt - 2) : 0;
  }
}
