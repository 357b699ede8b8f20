package snick.force.reading;

import java.util.Optional;
import java.util.OptionalDouble;
import snick.force.mass.Load;
import snick.phrase.Phrase;
import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleSink;

/**
 * Guides a person through a check with one load: everything off, then the load, each read when it
 * is steady. Knows device time only. One thread.
 */
public final class GuidedCheck implements SampleSink {
  private final Load load;
  private final Steadiness steadiness;
  private Optional<SteadyReading> settling = Optional.empty();
  private Optional<HeldReading> zero = Optional.empty();
  private Optional<HeldReading> loaded = Optional.empty();
  private Optional<Phrase> refused = Optional.empty();

  /** A check with {@code load}. */
  public GuidedCheck(Load load, Steadiness steadiness) {
    this.load = load;
    this.steadiness = steadiness;
  }

  /** What it is waiting for. */
  public GuidedCalibration.Phase phase() {
    if (settling.isPresent()) {
      return GuidedCalibration.Phase.SETTLING;
    }
    return loaded.isPresent()
        ? GuidedCalibration.Phase.FINISHED
        : GuidedCalibration.Phase.WAITING_FOR_PERSON;
  }

  /** What to do next; empty when finished. */
  public Optional<CalibrationPlan.Step> step() {
    if (zero.isEmpty()) {
      return Optional.of(new CalibrationPlan.Step.Unload());
    }
    return loaded.isEmpty()
        ? Optional.of(new CalibrationPlan.Step.PutOn(load, Direction.UP))
        : Optional.empty();
  }

  /** How far the reading has settled. */
  public Steadiness.Settling settling() {
    return settling.map(SteadyReading::settling).orElse(Steadiness.Settling.NOTHING);
  }

  /** Why the last try did not count, and what to do; empty if there was none. */
  public Optional<Phrase> refused() {
    return refused;
  }

  /** Reading without load; empty before. */
  public Optional<HeldReading> zero() {
    return zero;
  }

  /** Reading under the load; empty before. */
  public Optional<HeldReading> loaded() {
    return loaded;
  }

  /** The person says that the step is done; without effect unless one is being waited for. */
  public void confirm() {
    if (phase() == GuidedCalibration.Phase.WAITING_FOR_PERSON) {
      refused = Optional.empty();
      OptionalDouble noiseCounts =
          zero.map(z -> OptionalDouble.of(z.sdCounts())).orElse(OptionalDouble.empty());
      settling = Optional.of(new SteadyReading(steadiness, noiseCounts));
    }
  }

  @Override
  public void sample(long deviceNanos, int counts) {
    settling.ifPresent(s -> s.sample(deviceNanos, counts));
    follow();
  }

  private void follow() {
    settling.flatMap(SteadyReading::reading).ifPresent(this::take);
    settling.flatMap(SteadyReading::failure).ifPresent(this::refuse);
  }

  private void take(HeldReading reading) {
    settling = Optional.empty();
    if (zero.isEmpty()) {
      zero = Optional.of(reading);
      return;
    }
    Optional<Phrase> same = reading.sameAs(zero.get());
    same.ifPresentOrElse(
        why -> refuse(Phrase.of("held.hang", "why", why, "load", load.name())),
        () -> loaded = Optional.of(reading));
  }

  private void refuse(Phrase why) {
    settling = Optional.empty();
    refused = Optional.of(why);
  }

  @Override
  public void overrange(long deviceNanos, Rail rail) {
    settling.ifPresent(s -> s.overrange(deviceNanos, rail));
    follow();
  }

  @Override
  public void gap(Gap gap) {
    settling.ifPresent(s -> s.gap(gap));
  }

  @Override
  public void end() {
    settling.ifPresent(SteadyReading::end);
  }
}
