package snick.cli.verification;

import java.util.BitSet;
import java.util.List;
import java.util.OptionalLong;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import snick.cli.terminal.Refusal;
import snick.cut.Trace;
import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleBuffer;
import snick.sample.SampleSink;

/** The samples of a few minutes, to be looked at again. One thread. */
final class KeptSamples implements SampleSink {
  private static final int HIGHEST_CODE = 0x7FFFFF;
  private static final int LOWEST_CODE = -0x800000;
  private static final int MOST_SAMPLES = 2_000_000;

  private final SampleBuffer kept = new SampleBuffer(MOST_SAMPLES);
  private final BitSet overrange = new BitSet();
  private boolean broken;

  @Override
  public void sample(long deviceNanos, int reading) {
    add(deviceNanos, reading, false);
  }

  @Override
  public void overrange(long deviceNanos, Rail rail) {
    add(deviceNanos, rail == Rail.HIGH ? HIGHEST_CODE : LOWEST_CODE, true);
  }

  private void add(long deviceNanos, int reading, boolean atRail) {
    overrange.set(kept.size(), atRail);
    if (!kept.add(deviceNanos, reading)) {
      throw Refusal.failed(MOST_SAMPLES + " samples and no end; begin again", null);
    }
  }

  @Override
  public void gap(Gap gap) {
    broken = true;
  }

  @Override
  public void end() {}

  /** Whether samples are missing. */
  boolean isBroken() {
    return broken;
  }

  /** Device time of the newest sample, ns; 0 before the first. */
  long lastNanos() {
    return kept.size() == 0 ? 0 : kept.nanos(kept.size() - 1);
  }

  /** Device time of the first sample after {@code fromNanos} whose reading is as wanted, ns. */
  OptionalLong firstAfter(long fromNanos, IntPredicate wanted) {
    return IntStream.range(kept.firstFrom(fromNanos), kept.size())
        .filter(i -> wanted.test(kept.counts(i)))
        .mapToLong(kept::nanos)
        .findFirst();
  }

  /** Gives all samples, and the end, to {@code sink}. */
  void replay(SampleSink sink) {
    for (int i = 0; i < kept.size(); i++) {
      if (overrange.get(i)) {
        sink.overrange(kept.nanos(i), kept.counts(i) == HIGHEST_CODE ? Rail.HIGH : Rail.LOW);
      } else {
        sink.sample(kept.nanos(i), kept.counts(i));
      }
    }
    sink.end();
  }

  /** Samples from one device time to another, ns. */
  Trace between(long fromNanos, long toNanos) {
    int from = kept.firstFrom(fromNanos);
    int to = kept.firstFrom(toNanos);
    boolean[] atRail = new boolean[to - from];
    IntStream.range(from, to).filter(overrange::get).forEach(i -> atRail[i - from] = true);
    return new Trace(kept.nanos(from, to), kept.counts(from, to), atRail, List.of());
  }
}
