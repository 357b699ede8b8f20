package snick.force.budget;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import snick.force.fit.CalibrationCurve;
import snick.force.fit.ForceRange;
import snick.force.mass.Distribution;
import snick.force.reading.RigSetting;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.quantity.SampleRate;

class CalibrationTest {
  private static final Instant MADE = Instant.parse("2026-01-02T03:04:05Z");
  private static final RigSetting RIG =
      new RigSetting("00a1b2c3d4e5f607", 128, new SampleRate(80), 1);

  @Test
  void aTypedInLineGivesItsForceWithoutUncertaintyOfItsOwn() {
    Calibration line = Calibration.countsPerGramForce(437.25, MADE);
    MeasuredForce force = line.force(43_725, 437.25);
    assertThat(force.value().gramForce()).isCloseTo(100, within(1e-10));
    assertThat(force.standardUncertainty().gramForce()).isCloseTo(1, within(1e-12));
    assertThat(line.force(43_725, 0).standardUncertainty()).isEqualTo(Force.ZERO);
  }

  @Test
  void uncertaintiesOfLineTermsAndPeakAddInQuadrature() {
    Calibration line =
        Calibration.straightLine(
            Optional.of(RIG),
            MADE,
            new Calibration.Line(1000, 3, 0, 4),
            ForceRange.upToNewtons(10));
    assertThat(line.force(1000, 12).standardUncertainty().newtons())
        .isCloseTo(0.013, within(1e-15));
    BudgetTerm stated =
        new BudgetTerm(
            BudgetTerm.Source.STATED, Distribution.NORMAL, Force.ofNewtons(0.05), 0.12, 8, "test");
    Calibration more =
        Calibration.named(
            line.boundTo(),
            MADE,
            Optional.of(Duration.ofDays(90)),
            line.curve(),
            line.range(),
            List.of(stated),
            "test");
    DerivedForce.Inside inside = (DerivedForce.Inside) more.derive(1000, 0);
    assertThat(inside.force().standardUncertainty().newtons())
        .isCloseTo(Math.sqrt(0.05 * 0.05 + 0.12 * 0.12 + 25e-6), within(1e-15));
    assertThat(inside.degreesOfFreedom()).isBetween(8.0, 8.1);
  }

  @Test
  void saysWhenAForceLiesOutsideTheRange() {
    Calibration line =
        Calibration.straightLine(
            Optional.empty(), MADE, new Calibration.Line(1000, 1, 0, 0), ForceRange.upToNewtons(2));
    assertThat(line.derive(2000, 0)).isInstanceOf(DerivedForce.Inside.class);
    assertThat(line.derive(2001, 0)).isInstanceOf(DerivedForce.Outside.class);
    assertThat(line.derive(-1, 0)).isInstanceOf(DerivedForce.Outside.class);
    assertThat(((DerivedForce.Outside) line.derive(3000, 0)).force().value().newtons())
        .isEqualTo(3);
  }

  @Test
  void invertsACubicInsideAndFollowsTheTangentOutside() {
    CalibrationCurve cubic =
        new CalibrationCurve(new double[] {5, 1000, 20, -3}, new double[4][4], 10);
    Calibration made =
        Calibration.named(
            Optional.empty(),
            MADE,
            Optional.empty(),
            cubic,
            ForceRange.upToNewtons(5),
            List.of(),
            "test");
    for (double newtons = 0; newtons <= 5; newtons += 0.37) {
      assertThat(made.force(cubic.deflectionCounts(newtons), 0).value().newtons())
          .isCloseTo(newtons, within(1e-12));
    }
    double beyond = cubic.deflectionCounts(5) + cubic.slopeCountsPerNewton(5);
    assertThat(made.force(beyond, 0).value().newtons()).isCloseTo(6, within(1e-12));
  }

  @Test
  void refusesACurveThatTurnsInsideItsRange() {
    CalibrationCurve turns =
        new CalibrationCurve(new double[] {0, 10, -9, 3}, new double[4][4], 10);
    assertThat(turns.risesOver(ForceRange.upToNewtons(3))).isTrue();
    CalibrationCurve dips =
        new CalibrationCurve(new double[] {0, 8.9, -9, 3}, new double[4][4], 10);
    assertThatThrownBy(
            () ->
                Calibration.named(
                    Optional.empty(),
                    MADE,
                    Optional.empty(),
                    dips,
                    ForceRange.upToNewtons(3),
                    List.of(),
                    "test"))
        .hasMessageContaining("lower degree");
  }

  @Test
  void fitsItsOwnRigOnly() {
    Calibration bound =
        Calibration.straightLine(
            Optional.of(RIG), MADE, new Calibration.Line(1000, 1, 0, 0), ForceRange.upToNewtons(2));
    assertThat(bound.fits(RIG)).isInstanceOf(Calibration.Fit.Fits.class);
    RigSetting other = new RigSetting("ff", 64, new SampleRate(10), -1);
    assertThat(((Calibration.Fit.Stranger) bound.fits(other)).reasons()).hasSize(4);
    assertThat(Calibration.countsPerGramForce(437, MADE).fits(other))
        .isInstanceOf(Calibration.Fit.Fits.class);
  }

  @Test
  void idFollowsTheContents() {
    assertThat(Calibration.countsPerGramForce(437, MADE).id())
        .isEqualTo(Calibration.countsPerGramForce(437, MADE).id())
        .isNotEqualTo(Calibration.countsPerGramForce(438, MADE).id());
  }

  @Test
  void validityRunsFromMakingToTheEndOfThePeriod() {
    Calibration line = Calibration.countsPerGramForce(437, MADE);
    Calibration dated =
        Calibration.named(
            Optional.empty(),
            MADE,
            Optional.of(Duration.ofDays(10)),
            line.curve(),
            line.range(),
            List.of(),
            "test");
    assertThat(dated.validityAt(MADE.minusSeconds(1))).isEqualTo(Calibration.Validity.NOT_YET_MADE);
    assertThat(dated.validityAt(MADE.plusSeconds(1))).isEqualTo(Calibration.Validity.VALID);
    assertThat(dated.validityAt(MADE.plus(Duration.ofDays(11))))
        .isEqualTo(Calibration.Validity.EXPIRED);
  }

  @Test
  void refusesNumbersThatAreNone() {
    assertThatThrownBy(() -> Calibration.countsPerGramForce(Double.NaN, MADE))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> Calibration.countsPerGramForce(-3, MADE))
        .isInstanceOf(IllegalArgumentException.class);
    Calibration line = Calibration.countsPerGramForce(437, MADE);
    assertThatThrownBy(() -> line.force(Double.NaN, 0)).hasMessageContaining("finite");
    assertThatThrownBy(() -> line.force(1, -1)).hasMessageContaining("not negative");
    assertThatThrownBy(
            () -> new CalibrationCurve(new double[] {0, 1}, new double[][] {{-1, 0}, {0, 1}}, 1))
        .hasMessageContaining("negative");
  }
}
