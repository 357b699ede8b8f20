package snick.view.work;

import java.util.function.Consumer;
import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleSink;

/**
 * Work in which a guide is told every sample and what the person did, and leaves a mass hanging.
 */
abstract class GuidedWork<G extends SampleSink> implements RigWork {
  final G guide;
  private final Consumer<G> confirmation;

  GuidedWork(G guide, Consumer<G> confirmation) {
    this.guide = guide;
    this.confirmation = confirmation;
  }

  @Override
  public final synchronized void sample(long deviceNanos, int counts) {
    guide.sample(deviceNanos, counts);
  }

  @Override
  public final synchronized void overrange(long deviceNanos, Rail rail) {
    guide.overrange(deviceNanos, rail);
  }

  @Override
  public final synchronized void gap(Gap gap) {
    guide.gap(gap);
  }

  @Override
  public final synchronized void end() {
    guide.end();
  }

  @Override
  public final synchronized void confirm() {
    confirmation.accept(guide);
  }

  @Override
  public final boolean leavesMass() {
    return true;
  }
}
