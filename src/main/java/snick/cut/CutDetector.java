package snick.cut;

import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleSink;

/**
 * Finds loadings of the filament in a stream of samples and says how each ended. Streaming, one
 * thread, bounded memory; nothing is allocated for a sample at rest. Single-sample spikes begin no
 * event: three samples in a row must stand outside the rest band on one side. The getters may be
 * read between samples by the same thread.
 */
public final class CutDetector implements SampleSink {
  private static final int SAMPLES_THAT_BEGIN = 3;

  private final DetectorSettings settings;
  private final CutSink sink;
  private final PeriodTracker period = new PeriodTracker();
  private final RestTracker rest = new RestTracker();
  private final RestRing ring = new RestRing();
  private final Event event;
  private final EventAnalysis analysis;
  private int run;
  private int railRun;
  private boolean railReported;
  private int number;

  /** A detector that hands finished events to {@code sink}. */
  public CutDetector(DetectorSettings settings, CutSink sink) {
    this.settings = settings;
    this.sink = sink;
    this.event = new Event(settings);
    this.analysis = new EventAnalysis(settings);
  }

  @Override
  public void sample(long deviceNanos, int counts) {
    period.stamp(deviceNanos);
    ring.add(deviceNanos, counts, false);
    if (event.active()) {
      proceed(event.sample(deviceNanos, counts, period.periodNanos()));
      return;
    }
    railRun = 0;
    double away = counts - rest.levelCounts();
    if (Math.abs(away) > rest.triggerCounts()) {
      outside(away > 0 ? 1 : -1);
    } else {
      run = 0;
      railReported = false;
      rest.sample(ring, period.periodNanos());
    }
  }

  private void outside(int side) {
    run = run * side > 0 ? run + side : side;
    if (Math.abs(run) >= SAMPLES_THAT_BEGIN) {
      begin(side);
    }
  }

  private void begin(int side) {
    run = 0;
    railRun = 0;
    rest.dropBlock();
    event.begin(side, rest, ring);
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
      rest.forget();
    }
    ring.cutOff();
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
    analysis.of(event, period.periodNanos(), number + 1).ifPresent(this::deliver);
    rest.moveTo(event.levelAfterCounts());
    ring.cutOffBefore(event.restSamplesAfter());
    event.close();
  }

  private void deliver(Cut cut) {
    number = cut.number();
    sink.cut(cut);
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

  /** Events delivered so far. */
  public int delivered() {
    return number;
  }
}
