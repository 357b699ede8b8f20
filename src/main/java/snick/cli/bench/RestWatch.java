package snick.cli.bench;

import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleSink;

/** Lets samples through and knows how much of the rig's time has passed. One thread. */
final class RestWatch implements SampleSink {
  private final SampleSink next;
  private long samples;
  private long overrange;
  private long firstNanos;
  private long lastNanos;

  RestWatch(SampleSink next) {
    this.next = next;
  }

  /** Time from the first sample to the newest, s. */
  double seconds() {
    return (lastNanos - firstNanos) / 1e9;
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
