package snick.cut;

import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** Samples a second through the detector, at rest and with a cut every four seconds. */
@State(Scope.Thread)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 3, time = 1)
public class DetectorBenchmark {
  private static final int SAMPLES = 1 << 16;
  private static final long PERIOD_NANOS = 12_500_000;

  private final int[] rest = new int[SAMPLES];
  private final int[] withCuts = new int[SAMPLES];
  private CutDetector detector;
  private long nanos;
  private int cuts;

  /** Makes the readings. */
  @Setup
  public void setUp() {
    Random random = new Random(1);
    RigModel rig = new RigModel(80, RigModel.Filter.SINC4, 0.15, 1);
    double[] readings =
        rig.readings(t -> t % 4 > 2 && t % 4 < 3.5 ? 60 * (t % 4 - 2) : 0, SAMPLES / 80.0 + 1);
    for (int i = 0; i < SAMPLES; i++) {
      rest[i] = (int) Math.rint(66 * random.nextGaussian());
      withCuts[i] = rig.counts(readings[i]);
    }
    detector = new CutDetector(DetectorSettings.defaults(), cut -> cuts++);
  }

  /** At rest: noise only. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double atRest() {
    return feed(rest);
  }

  /** One cut every 320 samples. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double withCuts() {
    return feed(withCuts);
  }

  private double feed(int[] readings) {
    for (int reading : readings) {
      detector.sample(nanos, reading);
      nanos += PERIOD_NANOS;
    }
    return detector.levelCounts() + cuts;
  }
}
