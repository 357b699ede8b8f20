package snick.cut;

import snick.cut.rest.Before;
import snick.cut.rest.FlatWatch;
import snick.cut.rest.RestRing;
import snick.cut.rest.RestTracker;
import snick.cut.rest.SampleLog;
import snick.cut.rest.Settling;
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
    LOADED_AGAIN,
    /** What looked like a fall is a loading in the other direction. */
    LOADED_OTHERWISE
  }

  /** Why no more samples come. */
  enum End {
    SETTLED,
    /** The level moved and stays: no loading. */
    ABSORBED,
    TOO_LONG,
    CUT_OFF
  }

  /**
   * Readings above zero below this fraction of the peak count as fallen; half or twice as much
   * finds the same cuts (seeds 20040 to 20059).
   */
  static final double FALLEN_FRACTION = 0.12;

  /** Share of the band that begins an event below which the reading counts as fallen. */
  private static final double FALLEN_BAND = 0.5;

  /**
   * Share of what the rest band holds beside noise, of what swung or moved, that is calm still.
   * Half as much changes nothing on 20 random rigs of 25 cuts (seeds 20040 to 20059), twice as much
   * makes 9 of 490 forces wrong by 5 % and more after short rests.
   */
  private static final double CALM_BAND = 0.9;

  /**
   * A level that stays below this share of the peak is what a fall left. Half as much changes
   * nothing there, twice as much makes one false cut of 494.
   */
  private static final double STOOD_SHARE = 0.5;

  private static final int MOST_SAMPLES = 1 << 20;

  // Times and noises from here to the patience were set by hand; half and twice as much find the
  // same cuts there with the same errors, after rests of 1.5 to 2.5 and of 0.35 to 0.5 s.

  private static final long STANDS_NANOS = 500_000_000L;
  private static final long MOVED_NANOS = 5_000_000_000L;
  private static final double SMALL_NOISES = 20;

  /** A lower peak that is followed by more load at once was an unsteady touch, not a loading. */
  private static final double TOUCH_NOISES = 45;

  /** The amplifier's filter spreads a fall over four to five periods; as long again is awaited. */
  private static final double FILTER_PERIODS = 8;

  /** A ring or a remainder keeps an event from its result no longer. */
  private static final long PATIENCE_NANOS = 1_000_000_000L;

  /** Standard deviation of the level's noise, over √n: its readings' weights are a triangle. */
  private static final double LEVEL_NOISES = 1.2;

  /**
   * The range of n readings of noise is seldom more than 2√(2 ln n) of its standard deviations and
   * this (extremes of a normal sample; from memory).
   */
  private static final double CALM_MARGIN = 0.5;

  private final DetectorSettings settings;
  private final SampleLog log = new SampleLog();
  private final EventGaps gaps = new EventGaps();
  private final Course course = new Course();
  private final Settling settling = new Settling();
  private final FlatWatch flat = new FlatWatch();
  private Before before;
  private double zero;
  private int polarity;
  private boolean active;
  private boolean watching;
  private boolean settled;
  private Step step = Step.GOES_ON;
  private long beganNanos;
  private boolean anyOverrange;
  private End end = End.SETTLED;
  private double peak;
  private boolean fallen;
  private boolean low;
  private int lowTicks;
  private int fallenAt;
  private long fallenNanos;
  private double levelAfter;
  private double fallLevel;

  Event(DetectorSettings settings) {
    this.settings = settings;
  }

  /** Begins with the newest sample of the ring. */
  void begin(Before before, RestRing ring) {
    active = true;
    watching = false;
    step = Step.GOES_ON;
    polarity = before.polarity();
    zero = before.rest().levelCounts();
    log.clear();
    anyOverrange = false;
    ring.copyTo(log, settings.restKeptNanos());
    this.before = before.beganAt(log.size() - 1);
    beganNanos = log.nanos(log.size() - 1);
    gaps.restart(ring, log.size(), before.periodNanos());
    peak = 0;
    fallen = false;
    low = false;
    flat.restart(before.rest().bandCounts());
    end = End.SETTLED;
    levelAfter = zero;
    fallLevel = zero;
    beginCourse();
  }

  private void beginCourse() {
    double from = before.rest().fromCounts();
    course.restart(
        before.periodNanos(),
        (int) (polarity > 0 ? Math.floor(from) : Math.ceil(from)),
        before.rest().bandCounts());
    int began = log.size() - 1;
    for (int i = Math.max(0, began - 2); i <= began; i++) {
      anyOverrange |= log.overrange(i);
      peak = Math.max(peak, polarity * (course.add(log.counts(i)) - zero));
      course.ticks();
    }
  }

  /** Ends it; what follows may have to be watched further until it is at rest. */
  void close() {
    active = false;
    boolean loaded = step == Step.LOADED_AGAIN || step == Step.LOADED_OTHERWISE;
    watching = fallen && !loaded && end == End.SETTLED && !settled;
  }

  /** Takes a sample, as one of {@link #samples}. */
  void sample(long nanos, int counts) {
    log.add(nanos, counts, false);
    step = sample(log.size() - 1, nanos, counts);
  }

  /** Takes samples {@code from..to}, up to one that makes {@link #step} tell; behind the last. */
  int samples(long[] nanos, int[] counts, int from, int to) {
    int index = log.size();
    log.add(nanos, counts, from, to);
    step = Step.GOES_ON;
    int at = from;
    while (at < to && step == Step.GOES_ON) {
      step = sample(index++, nanos[at], counts[at]);
      at++;
    }
    log.keep(index);
    return at;
  }

  private Step sample(int index, long nanos, int counts) {
    double middle = polarity * (course.add(counts) - zero);
    if (!fallen) {
      peak = middle > peak ? middle : peak;
      if (!low && middle < lowCounts()) {
        low = true;
        lowTicks = 0;
        fallenAt = index;
        fallenNanos = nanos;
      }
    }
    return course.ticks() ? tick(index, nanos) : bounded(index, nanos);
  }

  private double lowCounts() {
    return Math.max(FALLEN_BAND * before.rest().bandCounts(), FALLEN_FRACTION * peak);
  }

  private double level() {
    return polarity * (course.levelCounts() - zero);
  }

  private Step tick(int index, long nanos) {
    flat.add(nanos, level());
    if (fallen) {
      return afterFall(index, nanos);
    }
    if (low && ++lowTicks >= course.memoryTicks()) {
      low = false;
      if (level() < lowCounts()) {
        fall();
        return afterFall(index, nanos);
      }
    }
    return flat.flatFor(STANDS_NANOS) ? standing(index, nanos) : bounded(index, nanos);
  }

  private void fall() {
    fallen = true;
    settled = false;
    fallLevel = course.levelCounts();
    double band = before.rest().bandCounts();
    double farthest = Math.max(band, peak);
    double doubt = LEVEL_NOISES * before.rest().noiseCounts() / Math.sqrt(course.memoryReadings());
    settling.begin(fallenNanos, band, farthest, calmCounts(), doubt, course.readingShare());
  }

  /** What the level above the zero, as that drifts, tells after a fall. */
  private Settling.State settle(long nanos) {
    double above = polarity * (course.levelCounts() - before.zero().countsAt(nanos));
    double doubt = Math.sqrt(Math.max(0, before.zero().covarianceCounts2(nanos, nanos)));
    Settling.State state = settling.tick(nanos, above, doubt, course.swingCounts());
    settled = state == Settling.State.SETTLED;
    return state;
  }

  /** How widely readings at rest spread: what the band adds is undone, or what noise alone does. */
  private double calmCounts() {
    double hum =
        CALM_BAND
            * (before.rest().bandCounts()
                - RestTracker.TRIGGER_NOISES * before.rest().noiseCounts());
    double spread = 2 * Math.sqrt(2 * StrictMath.log(course.memoryReadings())) + CALM_MARGIN;
    return Math.max(hum, spread * before.rest().noiseCounts());
  }

  /** Flat away from zero: after a fall that is its end; else it may be a level that moved. */
  private Step standing(int index, long nanos) {
    boolean fell = flat.level() < STOOD_SHARE * peak;
    boolean otherWay = polarity == -before.usualPolarity();
    boolean small = peak < SMALL_NOISES * before.rest().noiseCounts() && flat.flatFor(MOVED_NANOS);
    if (!fell && !otherWay && !small) {
      return bounded(index, nanos);
    }
    end = fell ? End.SETTLED : End.ABSORBED;
    levelAfter = course.levelCounts();
    return Step.ENDED;
  }

  private Step afterFall(int index, long nanos) {
    boolean touch = peak < TOUCH_NOISES * before.rest().noiseCounts();
    Settling.State state = settle(nanos);
    if (state == Settling.State.LOADED_OTHERWISE) {
      return Step.LOADED_OTHERWISE;
    }
    if (state == Settling.State.LOADED && touch && before.rest().settled()) {
      fallen = false;
      return bounded(index, nanos);
    }
    levelAfter = before.zero().countsAt(nanos) + polarity * settling.lowestCounts();
    if (state == Settling.State.LOADED) {
      return Step.LOADED_AGAIN;
    }
    long since = nanos - fallenNanos;
    boolean awaited = since >= (touch ? 2 : 1) * settings.settleNanos();
    boolean filtered = since >= FILTER_PERIODS * before.periodNanos();
    if (awaited && filtered && (settled || since >= PATIENCE_NANOS)) {
      levelAfter = settled ? course.levelCounts() : levelAfter;
      return Step.ENDED;
    }
    return bounded(index, nanos);
  }

  /** Watches a reading after the end; {@link Step#ENDED} at rest. */
  Step watch(long nanos, int counts) {
    course.add(counts);
    if (!course.ticks()) {
      return Step.GOES_ON;
    }
    Settling.State state = settle(nanos);
    watching = state != Settling.State.SETTLED;
    return switch (state) {
      case LOADED -> Step.LOADED_AGAIN;
      case LOADED_OTHERWISE -> Step.LOADED_OTHERWISE;
      case SETTLED -> Step.ENDED;
      case UNSETTLED -> Step.GOES_ON;
    };
  }

  /** Level of the rest, swings averaged out, counts. */
  double watchedLevelCounts() {
    return course.levelCounts();
  }

  /** Whether what follows the fall is not over yet. */
  boolean watching() {
    return watching;
  }

  void stopWatching() {
    watching = false;
  }

  private Step bounded(int index, long nanos) {
    boolean tooLong = nanos - beganNanos > settings.maximumEventNanos();
    if (!tooLong && index + 1 < MOST_SAMPLES) {
      return Step.GOES_ON;
    }
    end = End.TOO_LONG;
    levelAfter = course.levelCounts();
    return Step.ENDED;
  }

  Step overrange(long nanos, int code) {
    log.add(nanos, code, true);
    anyOverrange = true;
    step = bounded(log.size() - 1, nanos);
    return step;
  }

  void truncate(Gap gap) {
    gaps.add(gap);
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

  /** What was known when it began. */
  Before before() {
    return before;
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
    return before.began();
  }

  SampleLog log() {
    return log;
  }

  /** Where samples are missing in it and before. */
  EventGaps gaps() {
    return gaps;
  }

  /** Reading at rest after the event; the zero before if none is known, counts. */
  double levelAfterCounts() {
    return levelAfter;
  }

  /** Level that the fall ended at, swings averaged out, whatever went later, counts. */
  double fallLevelCounts() {
    return fallLevel;
  }

  /** Largest running median above zero, counts. */
  double peakCounts() {
    return peak;
  }

  /** Index of the first sample after the fall; only if fallen. */
  int fallenAt() {
    return fallenAt;
  }

  /** Whether the reading came to rest after the fall. */
  boolean settled() {
    return settled;
  }

  /** Where the level was lowest since the fall, and how wide the swings there, counts. */
  Settling settling() {
    return settling;
  }

  /** How many of the newest samples belong to the rest after the event. */
  int restSamplesAfter() {
    return fallen ? Math.max(1, log.size() - fallenAt - 2) : 0;
  }
}
