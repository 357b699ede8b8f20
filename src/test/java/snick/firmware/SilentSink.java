package snick.firmware;

import snick.frame.message.Answer;
import snick.frame.message.FrameSink;
import snick.frame.message.Hello;
import snick.frame.message.SampleBatch;
import snick.frame.message.Status;

/** Takes everything and keeps nothing; to be overridden in part. */
class SilentSink implements FrameSink {
  @Override
  public void hello(Hello hello) {}

  @Override
  public void samples(SampleBatch batch) {}

  @Override
  public void status(Status status) {}

  @Override
  public void answer(Answer answer) {}

  @Override
  public void announcement(String key, String value) {}

  @Override
  public void decimals(int digits) {}

  @Override
  public void reading(int counts) {}

  @Override
  public void reading(long deviceMicros, int counts) {}

  @Override
  public void flush() {}
}
