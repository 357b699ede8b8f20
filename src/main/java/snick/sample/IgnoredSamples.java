package snick.sample;

/** Takes samples where only what the stream went through matters. */
public final class IgnoredSamples implements SampleSink {
  @Override
  public void sample(long deviceNanos, int counts) {}

  @Override
  public void overrange(long deviceNanos, Rail rail) {}

  @Override
  public void gap(Gap gap) {}

  @Override
  public void end() {}
}
