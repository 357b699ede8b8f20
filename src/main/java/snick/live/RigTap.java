package snick.live;

import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleSink;

/**
 * Where the samples of one rig go: on to the detector, or for a while to work at the rig, for which
 * a mass that is lifted is no cut. Any thread turns it; the rig's thread passes samples.
 */
public final class RigTap {
  private final AtomicReference<Optional<SampleSink>> wanted =
      new AtomicReference<>(Optional.empty());

  /** Samples go to {@code work} from now on, and no further. */
  public void turnTo(SampleSink work) {
    wanted.set(Optional.of(work));
  }

  /** Samples go on as usual; what went by is a pause there. */
  public void turnBack() {
    wanted.set(Optional.empty());
  }

  /** A sink that passes on to {@code next} unless told otherwise. */
  public SampleSink before(SampleSink next) {
    return new Turning(next);
  }

  private final class Turning implements SampleSink {
    private final SampleSink next;
    private boolean away;
    private long leftNanos;

    Turning(SampleSink next) {
      this.next = next;
    }

    private SampleSink to(long nanos) {
      Optional<SampleSink> work = wanted.get();
      if (work.isPresent() && !away) {
        leftNanos = nanos;
      } else if (work.isEmpty() && away) {
        next.gap(new Gap(Gap.Cause.PAUSED, Math.min(leftNanos, nanos), nanos, 0));
      }
      away = work.isPresent();
      return work.orElse(next);
    }

    @Override
    public void sample(long nanos, int counts) {
      to(nanos).sample(nanos, counts);
    }

    @Override
    public void overrange(long nanos, Rail rail) {
      to(nanos).overrange(nanos, rail);
    }

    @Override
    public void gap(Gap gap) {
      wanted.get().ifPresent(work -> work.gap(gap));
      next.gap(gap);
    }

    @Override
    public void end() {
      wanted.get().ifPresent(SampleSink::end);
      next.end();
    }
  }
}
