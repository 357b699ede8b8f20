package snick.force;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import snick.force.budget.Conditions;
import snick.force.budget.EdgeGeometry;
import snick.force.mass.AirDensity;
import snick.force.mass.Gravity;
import snick.force.mass.Load;
import snick.force.mass.MassClass;
import snick.force.mass.ReferenceMass;
import snick.force.reading.CalibrationData;
import snick.force.reading.CalibrationRun;
import snick.force.reading.Direction;
import snick.force.reading.HeldReading;
import snick.force.reading.RigSetting;
import snick.quantity.Mass;
import snick.quantity.SampleRate;

/**
 * A rig and a person at the bench, simulated: the truth is known. Sensitivity differs from run to
 * run and with temperature, the curve bends, falling readings lag, the zero drifts, single loadings
 * scatter, masses and gravity err inside their limits. All figures invented.
 */
public final class SimulatedBench {
  static final double COUNTS_PER_NEWTON = 437.25 / 0.00980665;
  public static final RigSetting SETTING =
      new RigSetting("00000000000051ab", 128, new SampleRate(80), 1);
  public static final Gravity GRAVITY = Gravity.at(48, 300);
  static final double TEMPERATURE_COEFFICIENT = 1e-4;
  static final double TEMPERATURE_HALF_WIDTH = 4;

  static final double USUAL_BEND = 4e-4;
  private static final double LAG = 2e-4;
  private static final double CREEP = 1e-4;
  private static final double RUN_SD = 4e-4;
  private static final double LOADING_SD_COUNTS = 12;
  private static final double ZERO_STEP_COUNTS = 8;
  private static final double NOISE_COUNTS = 65;
  private static final int SAMPLES = 160;

  private final Random random;
  private final double bend;
  private final List<ReferenceMass> masses;
  private final double[] trueNewtons;
  private final double largestNewtons;
  private double zeroCounts = 81_234;
  private long nanos;

  public SimulatedBench(long seed, List<ReferenceMass> masses) {
    this(seed, masses, USUAL_BEND);
  }

  /** With a bend of one's own: relative change of sensitivity from no load to the largest. */
  public SimulatedBench(long seed, List<ReferenceMass> masses, double bend) {
    this.random = new Random(seed);
    this.bend = bend;
    this.masses = masses;
    double gravityError = uniform(Gravity.MODEL_RELATIVE_HALF_WIDTH);
    this.trueNewtons = new double[masses.size()];
    for (int i = 0; i < trueNewtons.length; i++) {
      ReferenceMass mass = masses.get(i);
      double limit = mass.standardUncertainty().kilograms() * Math.sqrt(3);
      double kilograms = mass.conventionalMass().kilograms() + uniform(limit);
      trueNewtons[i] =
          kilograms * GRAVITY.metresPerSecondSquared() * (1 + gravityError) * (1 - 1.5e-4);
    }
    this.largestNewtons = trueNewtons[trueNewtons.length - 1];
  }

  public static List<ReferenceMass> classWeights(MassClass massClass, int... grams) {
    List<ReferenceMass> masses = new ArrayList<>();
    for (int g : grams) {
      masses.add(ReferenceMass.ofClass(massClass, Mass.ofGrams(g)));
    }
    return masses;
  }

  public static Conditions conditions() {
    return new Conditions(
        GRAVITY,
        AirDensity.standard(),
        new Conditions.Stability(
            TEMPERATURE_COEFFICIENT, TEMPERATURE_HALF_WIDTH, 0, Optional.of(Duration.ofDays(180))),
        EdgeGeometry.NOT_STATED);
  }

  private double uniform(double halfWidth) {
    return halfWidth * (2 * random.nextDouble() - 1);
  }

  public double uniform(double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  public double normal(double sd) {
    return sd * random.nextGaussian();
  }

  /** Deflection that a force of {@code newtons} causes in a run of that sensitivity, counts. */
  private double deflection(double newtons, double sensitivity) {
    return COUNTS_PER_NEWTON * newtons * (1 + bend * newtons / largestNewtons) * sensitivity;
  }

  private double runSensitivity() {
    return 1 + normal(RUN_SD);
  }

  private double loadingScatterCounts() {
    return normal(LOADING_SD_COUNTS);
  }

  private HeldReading held(double deflectionCounts) {
    zeroCounts += normal(ZERO_STEP_COUNTS);
    long from = nanos;
    nanos += 10_000_000_000L;
    double mean = zeroCounts + deflectionCounts + normal(NOISE_COUNTS / Math.sqrt(SAMPLES));
    return new HeldReading(mean, NOISE_COUNTS, SAMPLES, from, from + 2_000_000_000L);
  }

  private CalibrationRun.Loaded loaded(int i, Direction direction, double sensitivity) {
    double f = trueNewtons[i];
    double lag =
        direction == Direction.DOWN ? LAG * COUNTS_PER_NEWTON * (largestNewtons - f) * 0.5 : 0;
    double d = deflection(f, sensitivity) + lag + loadingScatterCounts();
    return new CalibrationRun.Loaded(Load.of(masses.get(i)), direction, held(d));
  }

  CalibrationRun run() {
    double sensitivity = runSensitivity();
    HeldReading before = held(0);
    List<CalibrationRun.Loaded> readings = new ArrayList<>();
    for (int i = 0; i < masses.size(); i++) {
      readings.add(loaded(i, Direction.UP, sensitivity));
    }
    for (int i = masses.size() - 2; i >= 0; i--) {
      readings.add(loaded(i, Direction.DOWN, sensitivity));
    }
    return new CalibrationRun(before, readings, held(0));
  }

  CalibrationData.CreepHold hold() {
    double d = deflection(largestNewtons, 1);
    List<HeldReading> readings = new ArrayList<>();
    for (int i = 0; i < 5; i++) {
      readings.add(held(d * (1 + CREEP * (1 - Math.exp(-i / 2.0)))));
    }
    return new CalibrationData.CreepHold(Load.of(masses.get(masses.size() - 1)), readings);
  }

  public CalibrationData calibration(int runs) {
    List<CalibrationRun> done = new ArrayList<>();
    for (int i = 0; i < runs; i++) {
      done.add(run());
    }
    return new CalibrationData(SETTING, done, Optional.of(hold()));
  }

  /**
   * Deflection that a force causes in a later session: another run, another temperature, creep not
   * yet developed, the zero wandering a little since it was taken; counts.
   */
  public double laterDeflection(double newtons) {
    double temperature = 1 + TEMPERATURE_COEFFICIENT * uniform(TEMPERATURE_HALF_WIDTH);
    double creep = 1 - CREEP * random.nextDouble();
    return deflection(newtons, runSensitivity() * temperature * creep)
        + loadingScatterCounts()
        + normal(ZERO_STEP_COUNTS);
  }
}
