package snick.force.reading;

import java.util.Optional;
import java.util.OptionalDouble;
import snick.phrase.Phrase;
import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleSink;

/**
 * Waits until the reading is steady, once, by the criterion of {@link Steadiness}: two windows in a
 * row, the second of which is the reading. One thread.
 */
public final class SteadyReading implements SampleSink {
  private static final long CHECK_EVERY_NANOS = 100_000_000;

  private final Steadiness steadiness;
  private final OptionalDouble noiseCounts;
  private final SettlingWindow window;
  private Steadiness.Settling settling = Steadiness.Settling.NOTHING;
  private Optional<HeldReading> reading = Optional.empty();
  private boolean steadyBefore;
  private boolean overrange;
  private boolean timing;
  private long sinceNanos;
  private long nextCheckNanos;
  private long lastNanos;

  /**
   * Waits from the next sample on.
   *
   * @param noiseCounts standard deviation of one sample at rest; empty takes the window's own
   */
  public SteadyReading(Steadiness steadiness, OptionalDouble noiseCounts) {
    this.steadiness = steadiness;
    this.noiseCounts = noiseCounts;
    this.window = new SettlingWindow(steadiness.windowSeconds());
  }

  /** The reading; empty until it is steady. */
  public Optional<HeldReading> reading() {
    return reading;
  }

  /** How far it has settled. */
  public Steadiness.Settling settling() {
    return settling;
  }

  /** Why no reading will come; empty while one may. */
  public Optional<Phrase> failure() {
    if (overrange) {
      return Optional.of(Phrase.of("held.overrange_now"));
    }
    return isLate()
        ? Optional.of(
            Phrase.of("held.never_steady", "seconds", Math.round(steadiness.timeoutSeconds())))
        : Optional.empty();
  }

  /** Whether it has not become steady in the time that it is given. */
  boolean isLate() {
    return reading.isEmpty() && (lastNanos - sinceNanos) / 1e9 > steadiness.timeoutSeconds();
  }

  /** What the last window reads, steady or not; empty if samples are missing in it. */
  Optional<HeldReading> now() {
    return window.isFull() ? Optional.of(window.reading()) : Optional.empty();
  }

  @Override
  public void sample(long deviceNanos, int counts) {
    if (!timing) {
      timing = true;
      sinceNanos = deviceNanos;
      nextCheckNanos = deviceNanos;
    }
    lastNanos = deviceNanos;
    window.add(deviceNanos, counts);
    if (reading.isEmpty() && deviceNanos >= nextCheckNanos) {
      nextCheckNanos = deviceNanos + CHECK_EVERY_NANOS;
      check();
    }
  }

  private void check() {
    settling = window.settling(steadiness, noiseCounts);
    if (!settling.steady()) {
      return;
    }
    if (steadyBefore) {
      reading = Optional.of(window.reading());
    } else {
      steadyBefore = true;
      window.clear();
    }
  }

  @Override
  public void overrange(long deviceNanos, Rail rail) {
    overrange = overrange || reading.isEmpty();
  }

  @Override
  public void gap(Gap gap) {
    window.clear();
    steadyBefore = false;
  }

  @Override
  public void end() {
    window.clear();
  }
}
