package snick.cut;

import java.util.Optional;
import java.util.concurrent.Executor;
import snick.cut.response.Response;
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
  private static final int SAMPLES_THAT_BEGIN = 3;
  private static final int FAR_SAMPLES_THAT_BEGIN = 2;
  private static final double FAR_BANDS = 1.6;
  private static final double INNER_BAND = 0.65;

  private final DetectorSettings settings;
  private final Estimation estimation;
  private final PeriodTracker period = new PeriodTracker();
  private final RestTracker rest;
  private final RestRing ring = new RestRing();
  private final Event event;
  private final EventAnalysis analysis;
  private final long[] oneNanos = new long[1];
  private final int[] oneCounts = new int[1];
  private int run;
  private double farthest;
  private double least;
  private int railRun;
  private boolean railReported;
  private int number;
  private int usualPolarity;
  private Response response = Response.unknown();

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

  private CutDetector(DetectorSettings settings, Estimation estimation) {
    this.settings = settings;
    this.estimation = estimation;
    this.rest = new RestTracker(settings.beginsAtRest());
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
      boolean loaded = event.active();
      int to = loaded ? Math.min(size, at + period.steady()) : endOfRest(counts, at, size);
      period.stamp(deviceNanos, at, to);
      if (loaded) {
        at = proceed(deviceNanos, counts, at, to);
      } else {
        ring.add(deviceNanos, counts, at, to);
        unloaded(counts[at], to - at);
        at = to;
      }
    }
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
    int end = event.samples(deviceNanos, counts, from, to, period.periodNanos());
    period.takeBack(to - end);
    ring.add(deviceNanos, counts, from, end);
    proceed(event.step());
    return end;
  }

  /** Takes one sample outside the rest band, or several inside. */
  private void unloaded(int first, int n) {
    railRun = 0;
    if (outside(first)) {
      takeOutside(first - rest.levelCounts());
    } else {
      run = 0;
      railReported = false;
      rest.samples(n, ring, period.periodNanos());
    }
  }

  private void takeOutside(double away) {
    int side = away > 0 ? 1 : -1;
    boolean same = run * side > 0;
    run = same ? run + side : side;
    least = same ? Math.min(least, Math.abs(away)) : Math.abs(away);
    farthest = Math.max(same ? farthest : 0, Math.abs(away));
    boolean many = Math.abs(run) >= SAMPLES_THAT_BEGIN && farthest > rest.triggerCounts();
    boolean far =
        Math.abs(run) >= FAR_SAMPLES_THAT_BEGIN && least > FAR_BANDS * rest.triggerCounts();
    if (many || far) {
      begin(side);
    }
  }

  private void begin(int side) {
    run = 0;
    railRun = 0;
    rest.dropBlock();
    event.begin(side, usualPolarity, rest, ring, period.periodNanos());
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
      begin(code > rest.levelCounts() ? 1 : -1);
    }
  }

  @Override
  public void gap(Gap gap) {
    period.gap();
    rest.dropBlock();
    run = 0;
    railRun = 0;
    boolean broken = breaks(gap);
    if (event.active()) {
      if (broken) {
        event.truncate(gap);
        finish();
      } else {
        event.gap(gap);
      }
    }
    if (broken) {
      estimation.handOn();
      rest.forget();
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
    int next = event.polarity();
    finish();
    if (step == Event.Step.LOADED_AGAIN) {
      begin(next);
    }
  }

  private void finish() {
    Optional<Finding> finding = analysis.of(event, period.periodNanos(), number + 1);
    if (finding.isPresent()) {
      deliver(finding.get());
    }
    rest.moveTo(event.levelAfterCounts());
    ring.cutOffBefore(event.restSamplesAfter());
    event.close();
  }

  private void deliver(Finding finding) {
    number = finding.number();
    if (finding.parted() || usualPolarity == 0) {
      usualPolarity = finding.polarity();
    }
    finding.know(response);
    estimation.take(finding);
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

  /** Sampling rate learned from time stamps, Hz; 80 Hz is assumed until {@link #rateKnown}. */
  public double rateHertz() {
    return 1e9 / period.periodNanos();
  }

  /** Whether the sampling rate is known yet. */
  public boolean rateKnown() {
    return period.known();
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
