package snick.cli.bench;

import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleSink;

/** Lets samples through and knows how much of the rig's time has passed. One thread. */
final class RestWatch implements SampleSink {
  private SampleSink next;
  private long samples;
  private long overrange;
  private long firstNanos;
  private long lastNanos;

  RestWatch(SampleSink next) {
    this.next = next;
  }

  /** Samples go to {@code other} from now on. */
  void to(SampleSink other) {
    next = other;
  }

  /** Time from the first sample to the newest, s. */
  double seconds() {
    return (lastNanos - firstNanos) / 1e9;
  }

  /** Samples per second of the rig's time. */
  double samplesPerSecond() {
    return (samples - 1) / seconds();
  }

  /** Samples at the end of the converter's range. */
  long overrange() {
    return overrange;
  }

  /** For people. */
  String words() {
    return samples + " samples, " + overrange + " of them overrange";
  }

  private void passed(long deviceNanos) {
    if (samples == 0) {
      firstNanos = deviceNanos;
    }
    samples++;
    lastNanos = deviceNanos;
  }

  @Override
  public void sample(long deviceNanos, int counts) {
    passed(deviceNanos);
    next.sample(deviceNanos, counts);
  }

  @Override
  public void overrange(long deviceNanos, Rail rail) {
    passed(deviceNanos);
    overrange++;
    next.overrange(deviceNanos, rail);
  }

  @Override
  public void gap(Gap gap) {
    next.gap(gap);
  }

  @Override
  public void end() {
    next.end();
  }
}
