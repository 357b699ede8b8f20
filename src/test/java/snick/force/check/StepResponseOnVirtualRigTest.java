package snick.force.check;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snick.cut.Trace;
import snick.frame.StreamDecoder;
import snick.quantity.SampleRate;
import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleSink;
import snick.sample.SampleStream;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.ConverterSettings;
import snick.virtualrig.settings.DeviceSettings;
import snick.virtualrig.settings.RigSettings;
import snick.virtualrig.signal.StepTruth;

/** The virtual rig knows when its thread was cut and what its chain makes of that. */
class StepResponseOnVirtualRigTest {
  private static final int RIGS = 20;

  /** The device's clock is fast, and frequencies are by it. */
  private static final double CLOCK_RATE = 1 + DeviceSettings.USUAL.clockErrorPpm() * 1e-6;

  private static RigSettings rig(double hertz) {
    return RigSettings.USUAL.with(ConverterSettings.USUAL.withRate(new SampleRate(hertz)));
  }

  /** The cut of one rig as its samples show it. */
  private static final class Seen implements SampleSink {
    private final List<Long> nanos = new ArrayList<>();
    private final List<Integer> counts = new ArrayList<>();
    private final List<TrueCut> truths = new ArrayList<>();
    private final SampleStream stream = new SampleStream(new SampleRate(80), this);

    Seen(RigSettings rig, long seed) {
      StreamDecoder decoder = StreamDecoder.ofAnyForm(StreamDecoder.Start.AT_BEGINNING);
      Script script =
          Script.of(
              new Action.Rest(1.5 + seed * 0.0317),
              Action.Hang.ofGrams(200),
              new Action.Rest(1.5),
              new Action.CutThread(),
              new Action.Rest(3));
      new VirtualRig(rig, seed)
          .render(
              script, (at, bytes, length) -> decoder.accept(bytes, 0, length, stream), truths::add);
    }

    double cutNanos() {
      return truths.get(0).breakNanos() - 1000.0 * stream.originMicros().orElseThrow();
    }

    /** One second before the cut, and what follows. */
    StepResponse response() {
      int from = 0;
      while (nanos.get(from) < cutNanos() - 1e9) {
        from++;
      }
      int to = nanos.size();
      return StepResponse.of(
          new Trace(
              nanos.subList(from, to).stream().mapToLong(n -> n).toArray(),
              counts.subList(from, to).stream().mapToInt(c -> c).toArray(),
              new boolean[to - from],
              List.of()),
          1);
    }

    @Override
    public void sample(long deviceNanos, int reading) {
      nanos.add(deviceNanos);
      counts.add(reading);
    }

    @Override
    public void overrange(long deviceNanos, Rail rail) {
      throw new AssertionError("overrange");
    }

    @Override
    public void gap(Gap gap) {
      throw new AssertionError(gap);
    }

    @Override
    public void end() {}
  }

  /** Distance from the truth in standard uncertainties. */
  private static double away(Estimated estimated, double truth) {
    return Math.abs(estimated.value() - truth) / estimated.standardUncertainty();
  }

  private static void requireRecovered(List<Double> distances) {
    assertThat(distances).allMatch(d -> d < 3.5);
    assertThat(distances.stream().filter(d -> d <= 2).count())
        .isGreaterThanOrEqualTo(Math.round(0.9 * distances.size()));
  }

  @ParameterizedTest
  @ValueSource(doubles = {80, 320})
  void recoversDelayFallAndRingWithinTheirUncertainty(double hertz) {
    StepTruth truth = StepTruth.of(rig(hertz));
    List<Double> delays = new ArrayList<>();
    List<Double> falls = new ArrayList<>();
    List<Double> rings = new ArrayList<>();
    for (int seed = 1; seed <= RIGS; seed++) {
      Seen seen = new Seen(rig(hertz), seed);
      StepResponse response = seen.response();
      delays.add(away(response.delayNanos(seen.cutNanos()), truth.delayNanos()));
      falls.add(away(response.fallNanos(), truth.fallNanos()));
      assertThat(truth.delayNanos())
          .as("seen without knowing the instant of the cut")
          .isBetween(response.movementNanos().leastNanos(), response.movementNanos().mostNanos());
      requireRing(response, hertz, truth, rings);
    }
    requireRecovered(delays);
    requireRecovered(falls);
    assertThat(rings).hasSize(2 * RIGS);
    requireRecovered(rings);
  }

  /** Below half of 320 samples/s, 45 Hz is seen as it is; 80 samples/s fold it to 35 Hz. */
  private static void requireRing(
      StepResponse response, double hertz, StepTruth truth, List<Double> distances) {
    assertThat(response.highestHertz()).isCloseTo(hertz / 2, within(0.01));
    assertThat(response.swing().smallest()).isBetween(0.002, 0.01);
    StepResponse.Ring ring = response.swing().ring().orElseThrow();
    double shown = hertz == 320 ? truth.ringHertz() : hertz - truth.ringHertz();
    double decay = truth.ringHertz() * truth.dampingRatio() / undamped(truth.dampingRatio());
    distances.add(away(ring.hertz(), shown / CLOCK_RATE));
    distances.add(away(ring.dampingRatio(), decay / Math.hypot(decay, shown)));
  }

  private static double undamped(double dampingRatio) {
    return Math.sqrt(1 - dampingRatio * dampingRatio);
  }
}
