package snick.cut;

import java.util.Optional;
import java.util.concurrent.Executor;
import snick.cut.estimate.BreakEstimator;
import snick.cut.response.Response;
import snick.cut.rest.Before;
import snick.cut.rest.Excursion;
import snick.cut.rest.PeriodTracker;
import snick.cut.rest.RestRing;
import snick.cut.rest.RestTracker;
import snick.cut.rest.Settling;
import snick.cut.rest.ZeroTrack;
import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleSink;

/**
 * Finds loadings of the filament in a stream of samples and says how each ended. Streaming, one
 * thread, bounded memory; nothing is allocated for a sample at rest. Single-sample spikes begin no
 * event: two samples in a row must stand far off on one side, or three well off and one of them
 * outside the rest band. The getters may be read between samples by the same thread.
 */
public final class CutDetector implements SampleSink {
  /** Standard deviation of a level between two events, in noises; set by hand. */
  private static final double LEVEL_NOISES = 0.5;

  /**
   * Beyond this share of the rest band a reading may be the first of an event; half or twice as
   * much: the same cuts (seeds 20040 to 20059).
   */
  private static final double INNER_BAND = 0.65;

  /** Uncertainty of a block's median: 1.25/√n for 8 to 32 readings, low frequencies included. */
  private static final double BLOCK_NOISES = 0.3;

  /** A level above the zero by more of its doubts is a load that remains. */
  private static final double DOUBTS = 3;

  private final DetectorSettings settings;
  private final Estimation estimation;
  private final PeriodTracker period = new PeriodTracker();
  private final RestTracker rest = new RestTracker();
  private final RestRing ring = new RestRing();
  private final ZeroTrack zero = new ZeroTrack();
  private final Excursion excursion = new Excursion();
  private final Event event;
  private final EventAnalysis analysis;
  private final long[] oneNanos = new long[1];
  private final int[] oneCounts = new int[1];
  private int railRun;
  private boolean railReported;
  private int number;
  private int usualPolarity;
  private Response response = Response.unknown();
  private Optional<StreamLearning> learning = Optional.empty();

  /** A detector that hands finished events to {@code sink} at once. */
  public CutDetector(DetectorSettings settings, CutSink sink) {
    this(settings, sink, new BreakEstimator());
  }

  /** The same with what another detector's estimator has kept. */
  public CutDetector(DetectorSettings settings, CutSink sink, BreakEstimator estimator) {
    this(settings, new EstimationAtOnce(sink, estimator));
  }

  /**
   * A detector whose forces are estimated beside it. Finished events reach {@code sink} in order,
   * in the thread that hands samples to the detector, some later: at the latest with {@link
   * #handOn}, with a gap that ends what came before, and at the end.
   *
   * @param beside runs one task at a time, in order
   */
  public CutDetector(DetectorSettings settings, CutSink sink, Executor beside) {
    this(settings, new EstimationBeside(sink, beside));
  }

  /**
   * The same, and it learns the rig's response from the cuts of its stream, at the 5th, 10th, 20th,
   * 40th … that was severed.
   */
  public static CutDetector learning(DetectorSettings settings, CutSink sink, Executor beside) {
    StreamLearning learning = new StreamLearning(sink);
    CutDetector detector = new CutDetector(settings, new EstimationBeside(learning, beside));
    detector.learning = Optional.of(learning);
    return detector;
  }

  private CutDetector(DetectorSettings settings, Estimation estimation) {
    this.settings = settings;
    this.estimation = estimation;
    this.event = new Event(settings);
    this.analysis = new EventAnalysis(settings);
  }

  /** Tells what is known of the rig from now on; between samples, by the thread that hands them. */
  public void know(Response known) {
    response = known;
  }

  @Override
  public void sample(long deviceNanos, int counts) {
    oneNanos[0] = deviceNanos;
    oneCounts[0] = counts;
    samples(oneNanos, oneCounts, 1);
  }

  @Override
  public void samples(long[] deviceNanos, int[] counts, int size) {
    int at = 0;
    while (at < size) {
      at =
          event.active() || event.watching()
              ? followEvent(deviceNanos, counts, at, size)
              : followRest(deviceNanos, counts, at, size);
    }
  }

  private int followRest(long[] deviceNanos, int[] counts, int at, int size) {
    int to = endOfRest(counts, at, size);
    period.stamp(deviceNanos, at, to);
    ring.add(deviceNanos, counts, at, to);
    unloaded(counts[at], to - at);
    return to;
  }

  private int followEvent(long[] deviceNanos, int[] counts, int at, int size) {
    int to = Math.min(size, at + period.steady());
    if (event.active()) {
      period.stamp(deviceNanos, at, to);
      return proceed(deviceNanos, counts, at, to);
    }
    period.stamp(deviceNanos, at, at + 1);
    ring.add(deviceNanos, counts, at, at + 1);
    watched(event.watch(deviceNanos[at], counts[at]), deviceNanos[at]);
    return at + 1;
  }

  private void watched(Event.Step step, long nanos) {
    switch (step) {
      case LOADED_AGAIN -> beginUnsettled(nanos);
      case LOADED_OTHERWISE -> beginOtherwise(nanos);
      case ENDED -> rests(nanos, event.watchedLevelCounts());
      case GOES_ON -> {}
    }
  }

  /** The reading rests at this level: the zero, whatever it was before. */
  private void rests(long nanos, double levelCounts) {
    double noise = rest.noiseCounts();
    double moved = Math.abs(levelCounts - zero.at(nanos, noise).counts());
    if (moved > rest.triggerCounts()) {
      zero.begin(nanos, levelCounts, noise, noise);
    } else {
      zero.take(nanos, levelCounts, LEVEL_NOISES * noise, noise);
    }
    rest.moveTo(levelCounts);
  }

  /** A loading begins from ringing or a remainder of the last. */
  private void beginUnsettled(long nanos) {
    Settling last = event.settling();
    int side = event.polarity();
    double above = last.lowestCounts();
    double noise = rest.noiseCounts();
    Before.Zero predicted = zero.at(nanos, noise);
    double from = predicted.counts() + side * above;
    double u = Math.hypot(last.lowestDoubtCounts(), LEVEL_NOISES * noise);
    double doubt = Math.sqrt(predicted.varianceCounts2() + u * u);
    if (above < DOUBTS * doubt) {
      zero.take(nanos, from, Math.hypot(u, above), noise);
    }
    rest.moveTo(zero.at(nanos, noise).counts());
    begin(side, from, false, nanos);
  }

  /** What the event took for a fall is a loading in the other direction, from rest. */
  private void beginOtherwise(long nanos) {
    rest.moveTo(zero.at(nanos, rest.noiseCounts()).counts());
    begin(-event.polarity(), rest.levelCounts(), true, nanos);
  }

  /** How far the rest goes on within its band, or its block; behind the first sample at least. */
  private int endOfRest(int[] counts, int from, int size) {
    int end = Math.min(size, from + rest.room());
    int at = from;
    while (at < end && !outside(counts[at])) {
      at++;
    }
    return Math.max(at, from + 1);
  }

  private boolean outside(int counts) {
    return Math.abs(counts - rest.levelCounts()) > INNER_BAND * rest.triggerCounts();
  }

  /** Samples {@code from..to} belong to the event at hand, but those after its end; there. */
  private int proceed(long[] deviceNanos, int[] counts, int from, int to) {
    int end = event.samples(deviceNanos, counts, from, to);
    period.takeBack(to - end);
    ring.add(deviceNanos, counts, from, end);
    proceed(event.step());
    return end;
  }

  /** Takes one sample outside the rest band, or several inside. */
  private void unloaded(int first, int n) {
    railRun = 0;
    if (outside(first)) {
      if (excursion.begins(first - rest.levelCounts(), rest.triggerCounts())) {
        begin(excursion.side(), rest.levelCounts(), true, ring.nanos(0));
      }
    } else {
      excursion.clear();
      railReported = false;
      if (rest.samples(n, ring, period.periodNanos())) {
        followBlock();
      }
    }
  }

  /** Before the rest is known, a block may be of a loading. */
  private void followBlock() {
    double noise = rest.noiseCounts();
    if (!rest.known()) {
      zero.forget();
    }
    long middle = ring.nanos(rest.lastBlockLength() / 2);
    zero.take(middle, rest.lastMedianCounts(), BLOCK_NOISES * noise, noise);
    rest.follow(zero.driftCountsPerSecond());
  }

  private void begin(int side, double fromCounts, boolean settled, long nanos) {
    excursion.clear();
    railRun = 0;
    rest.dropBlock();
    double noise = rest.noiseCounts();
    Before before =
        new Before(
            0,
            side,
            usualPolarity,
            new Before.AtRest(
                rest.levelCounts(), fromCounts, noise, rest.triggerCounts(), rest.sure(), settled),
            period.periodNanos(),
            zero.at(nanos, noise));
    event.begin(before, ring);
  }

  @Override
  public void overrange(long deviceNanos, Rail rail) {
    period.stamp(deviceNanos);
    int code = rail == Rail.HIGH ? 0x7FFFFF : -0x800000;
    ring.add(deviceNanos, code, true);
    if (event.active()) {
      proceed(event.overrange(deviceNanos, code));
      return;
    }
    railRun++;
    if (railRun >= 2 && rest.known() && !railReported) {
      railReported = true;
      event.stopWatching();
      begin(code > rest.levelCounts() ? 1 : -1, rest.levelCounts(), true, deviceNanos);
    }
  }

  @Override
  public void gap(Gap gap) {
    period.gap();
    rest.dropBlock();
    excursion.clear();
    railRun = 0;
    boolean broken = breaks(gap);
    if (event.active()) {
      if (broken) {
        event.truncate(gap);
        finish();
      } else {
        event.gaps().add(gap);
      }
    }
    if (broken) {
      estimation.handOn();
      event.stopWatching();
      rest.forget();
      zero.forget();
      ring.cutOff();
    } else {
      ring.gap(gap);
    }
  }

  /** Longer gaps, resets and new forms end an event: what came before cannot be joined to after. */
  private boolean breaks(Gap gap) {
    boolean lost = gap.cause() == Gap.Cause.LOST_SAMPLES;
    return !lost || gap.toNanos() - gap.fromNanos() > settings.restKeptNanos();
  }

  @Override
  public void end() {
    if (event.active()) {
      event.streamEnds();
      finish();
    }
    handOn();
  }

  /** Hands on every event that is finished. */
  public void handOn() {
    estimation.handOn();
  }

  private void proceed(Event.Step step) {
    if (step == Event.Step.GOES_ON) {
      return;
    }
    finish();
    if (step == Event.Step.LOADED_AGAIN) {
      beginUnsettled(ring.nanos(0));
    } else if (step == Event.Step.LOADED_OTHERWISE) {
      beginOtherwise(ring.nanos(0));
    }
  }

  private void finish() {
    Optional<FoundLoading> finding = analysis.of(event, number + 1);
    if (finding.isPresent()) {
      deliver(finding.get());
    }
    if (event.step() != Event.Step.LOADED_OTHERWISE) {
      ring.cutOffBefore(event.restSamplesAfter());
    }
    event.close();
    if (!event.watching() && event.step() == Event.Step.ENDED) {
      rests(ring.nanos(0), event.levelAfterCounts());
    }
  }

  private void deliver(FoundLoading finding) {
    number = finding.number();
    if (finding.parted() || usualPolarity == 0) {
      usualPolarity = finding.polarity();
    }
    finding.know(response);
    estimation.take(finding);
    if (learning.isPresent() && learning.get().wants(finding)) {
      handOn();
      learning.get().learned().ifPresent(this::know);
    }
  }

  /** Reading at rest, counts; 0 while unknown. */
  public double levelCounts() {
    return rest.levelCounts();
  }

  /** Standard deviation of one sample at rest, counts, robust. */
  public double noiseCounts() {
    return rest.noiseCounts();
  }

  /** Distance from rest at which loading begins, counts; infinite while rest is unknown. */
  public double triggerCounts() {
    return rest.triggerCounts();
  }

  /** Whether level and noise at rest are known yet. */
  public boolean restKnown() {
    return rest.known();
  }

  /** Sampling rate learned from time stamps, Hz; 80 Hz until it is known. */
  public double rateHertz() {
    return 1e9 / period.periodNanos();
  }

  /** Whether the filament is being loaded now. */
  public boolean inEvent() {
    return event.active();
  }

  /** Events found so far. */
  public int found() {
    return number;
  }
}
