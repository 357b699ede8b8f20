package snick.force.budget;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import snick.force.SimulatedBench;
import snick.force.fit.DegreeRule;
import snick.force.mass.MassClass;
import snick.force.mass.ReferenceMass;
import snick.quantity.MeasuredForce;

/** 2,000 whole calibrations, each then asked for one later force whose truth is known. */
class CoverageSimulationTest {
  private static final Instant MADE = Instant.parse("2026-01-02T03:04:05Z");
  private static final int CALIBRATIONS = 2_000;
  private static final List<ReferenceMass> MASSES =
      SimulatedBench.classWeights(MassClass.M1, 20, 50, 100, 200, 500);

  private static double coverage(
      int runs, double peakCounts, double lowNewtons, double highNewtons) {
    int covered = 0;
    for (int seed = 1; seed <= CALIBRATIONS; seed++) {
      SimulatedBench bench = new SimulatedBench(1_000_003L * seed + runs, MASSES);
      Evaluation evaluation =
          Evaluation.of(
              bench.calibration(runs),
              SimulatedBench.conditions(),
              new DegreeRule.Automatic(),
              MADE);
      double truth = bench.uniform(lowNewtons, highNewtons);
      double deflection = bench.laterDeflection(truth) + bench.normal(peakCounts);
      DerivedForce.Inside derived =
          (DerivedForce.Inside) evaluation.calibration().derive(deflection, peakCounts);
      MeasuredForce force = derived.force();
      double expanded =
          Coverage.factor(0.95, derived.degreesOfFreedom()) * force.standardUncertainty().newtons();
      if (Math.abs(force.value().newtons() - truth) <= expanded) {
        covered++;
      }
    }
    return covered / (double) CALIBRATIONS;
  }

  /** A peak known to 0.14 gf: the usual case. */
  @Test
  void theStatedIntervalCoversTheTruth() {
    assertThat(coverage(3, 60, 0.3, 4.8)).isBetween(0.93, 0.97);
  }

  /** A peak known exactly: all the uncertainty is the calibration's own. */
  @Test
  void theStatedIntervalCoversTheTruthWithTheCalibrationAlone() {
    assertThat(coverage(3, 0, 0.3, 4.8)).isBetween(0.93, 0.97);
  }

  @Test
  void moreRunsCoverAsWell() {
    assertThat(coverage(5, 20, 0.3, 4.8)).isBetween(0.93, 0.97);
  }
}
