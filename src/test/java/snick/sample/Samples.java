package snick.sample;

import java.util.ArrayList;
import java.util.List;

/** Keeps what a stream hands on. */
final class Samples implements SampleSink {
  final List<Long> nanos = new ArrayList<>();
  final List<Integer> counts = new ArrayList<>();
  final List<Rail> rails = new ArrayList<>();
  final List<Gap> gaps = new ArrayList<>();
  boolean ended;

  @Override
  public void sample(long deviceNanos, int reading) {
    nanos.add(deviceNanos);
    counts.add(reading);
  }

  @Override
  public void overrange(long deviceNanos, Rail rail) {
    rails.add(rail);
  }

  @Override
  public void gap(Gap gap) {
    gaps.add(gap);
  }

  @Override
  public void end() {
    ended = true;
  }
}
