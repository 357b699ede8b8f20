package snick.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import snick.InEnglish;
import snick.force.budget.Calibration;
import snick.force.fit.CalibrationCurve;
import snick.force.fit.ForceRange;
import snick.force.reading.RigSetting;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.quantity.SampleRate;
import snick.store.record.Verification;

class CalibrationWarningsTest {
  private static final Instant MADE = Instant.parse("2026-02-03T10:00:00Z");
  private static final RigSetting RIG = new RigSetting("51ab", 128, new SampleRate(80), 1);
  private static final Calibration CALIBRATION =
      Calibration.named(
          Optional.of(RIG),
          MADE,
          Optional.of(Duration.ofDays(180)),
          new CalibrationCurve(new double[] {0, 44_000}, new double[][] {{0, 0}, {0, 100}}, 10),
          ForceRange.upToNewtons(5),
          List.of(),
          "invented");

  private static Verification check(Instant at, double errorPercent) {
    return new Verification(
        "51ab",
        CALIBRATION.id(),
        at,
        MeasuredForce.ofNewtons(1, 1e-4),
        MeasuredForce.ofNewtons(1 + errorPercent / 100, 1e-4),
        Force.ofNewtons(0.002),
        "");
  }

  private static List<String> after(Duration since, Verification... checks) {
    return CalibrationWarnings.of(CALIBRATION, List.of(checks), MADE.plus(since)).stream()
        .map(InEnglish::told)
        .toList();
  }

  @Test
  void aFreshCalibrationNeedsNoCheckAnOldOneDoes() {
    assertThat(after(Duration.ofHours(23))).isEmpty();
    assertThat(after(Duration.ofHours(25))).singleElement().asString().contains("never verified");
  }

  @Test
  void aCheckIsGoodForADay() {
    Verification good = check(MADE.plus(Duration.ofDays(3)), 0.01);
    assertThat(after(Duration.ofDays(3).plusHours(5), good)).isEmpty();
    assertThat(after(Duration.ofDays(5), good)).singleElement().asString().contains("over a day");
  }

  @Test
  void aCheckOutOfLimitsIsSaid() {
    Verification bad = check(MADE.plus(Duration.ofDays(3)), -0.5);
    assertThat(after(Duration.ofDays(3).plusHours(1), bad))
        .singleElement()
        .asString()
        .contains("out of limits by -0.500 %");
  }

  @Test
  void checksOfAnotherCalibrationDoNotCount() {
    Verification other =
        new Verification(
            "51ab",
            "cal-other",
            MADE.plus(Duration.ofDays(2)),
            MeasuredForce.ofNewtons(1, 0),
            MeasuredForce.ofNewtons(1, 0),
            Force.ofNewtons(1),
            "");
    assertThat(after(Duration.ofDays(2), other)).singleElement().asString().contains("never");
  }

  @Test
  void anExpiredCalibrationIsSaid() {
    Verification good = check(MADE.plus(Duration.ofDays(200)), 0);
    assertThat(after(Duration.ofDays(200).plusHours(1), good))
        .singleElement()
        .asString()
        .contains("expired on 2026-08-02");
  }

  /** Each check passes, together they creep up: the weighted average leaves its limits. */
  @Test
  void aSlowDriftShowsBeforeAnyCheckFails() {
    List<Verification> checks = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      checks.add(
          check(MADE.plus(Duration.ofHours(i + 1)), 0.012 * i + (i % 2 == 0 ? 0.01 : -0.01)));
    }
    assertThat(checks).allMatch(Verification::withinLimit);
    assertThat(after(Duration.ofHours(13), checks.toArray(Verification[]::new)))
        .singleElement()
        .asString()
        .contains("drift");
  }
}
