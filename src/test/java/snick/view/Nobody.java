package snick.view;

import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleSink;

/** Takes samples and does nothing. */
public final class Nobody implements SampleSink {
  @Override
  public void sample(long deviceNanos, int counts) {}

  @Override
  public void overrange(long deviceNanos, Rail rail) {}

  @Override
  public void gap(Gap gap) {}

  @Override
  public void end() {}
}
