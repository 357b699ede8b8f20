package snick.force.check;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static snick.InEnglish.told;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import snick.force.budget.Calibration;
import snick.phrase.NotAccepted;
import snick.quantity.SampleRate;
import snick.sample.Gap;
import snick.sample.Rail;

class RigCheckTest {
  private static final double NOISE = 60;
  private static final RigCheck.Circumstances KNOWN =
      new RigCheck.Circumstances(
          Optional.of(new SampleRate(80)),
          Optional.of(
              Calibration.countsPerGramForce(437.25, Instant.parse("2026-01-02T03:04:05Z"))),
          OptionalDouble.of(40),
          750,
          0);

  /** What is added to a sound signal at sample i. */
  @FunctionalInterface
  private interface Fault {
    double counts(int i, double seconds);
  }

  private static RigCheck minute(double hertz, Fault fault) {
    RigCheck check = new RigCheck();
    Random random = new Random(3);
    for (int i = 0; i < 60 * hertz; i++) {
      double t = i / hertz;
      check.sample(
          Math.round(t * 1e9),
          (int) Math.round(12_345 + NOISE * random.nextGaussian() + fault.counts(i, t)));
    }
    return check;
  }

  private static CheckResult of(List<CheckResult> findings, CheckResult.Check check) {
    return findings.stream().filter(f -> f.check() == check).findFirst().orElseThrow();
  }

  private static void onlyComplaint(List<CheckResult> findings, CheckResult.Check check) {
    for (CheckResult finding : findings) {
      assertThat(finding.grade() == CheckResult.Grade.PASS)
          .as(finding.toString())
          .isEqualTo(finding.check() != check);
      assertThat(finding.remedy().isEmpty()).isEqualTo(finding.grade() == CheckResult.Grade.PASS);
    }
  }

  @Test
  void aSoundRigPassesEverything() {
    List<CheckResult> findings = minute(80.3, (i, t) -> 0).findings(KNOWN);
    assertThat(findings).hasSize(10).allMatch(f -> f.grade() == CheckResult.Grade.PASS);
    assertThat(told(of(findings, CheckResult.Check.RATE).measured())).startsWith("80.300");
    assertThat(told(of(findings, CheckResult.Check.NOISE).measured())).contains("(0.13");
  }

  @Test
  void soundSignalsOfOtherSeedsShowNoHum() {
    for (int seed = 0; seed < 40; seed++) {
      RigCheck check = new RigCheck();
      Random random = new Random(seed);
      for (int i = 0; i < 4800; i++) {
        check.sample(i * 12_500_000L, (int) Math.round(NOISE * random.nextGaussian()));
      }
      assertThat(of(check.findings(KNOWN), CheckResult.Check.HUM).grade())
          .isEqualTo(CheckResult.Grade.PASS);
    }
  }

  @Test
  void seesMainsHumWhereItsAliasFalls() {
    List<CheckResult> findings =
        minute(80, (i, t) -> 30 * Math.sin(2 * Math.PI * 50 * t + 1)).findings(KNOWN);
    onlyComplaint(findings, CheckResult.Check.HUM);
    assertThat(told(of(findings, CheckResult.Check.HUM).measured()))
        .contains("30.00 Hz")
        .contains("as 50 Hz");
    assertThat(told(of(minute(25, (i, t) -> 0).findings(KNOWN), CheckResult.Check.HUM).measured()))
        .contains("cannot be seen at this rate: 50 Hz, 100 Hz");
  }

  @Test
  void seesAWrongRate() {
    List<CheckResult> findings = minute(98, (i, t) -> 0).findings(KNOWN);
    onlyComplaint(findings, CheckResult.Check.RATE);
    assertThat(of(minute(10, (i, t) -> 0).findings(KNOWN), CheckResult.Check.RATE).grade())
        .isEqualTo(CheckResult.Grade.FAIL);
  }

  @Test
  void seesNoiseAndSaysItInGramForce() {
    Random random = new Random(9);
    List<CheckResult> findings = minute(80, (i, t) -> 400 * random.nextGaussian()).findings(KNOWN);
    onlyComplaint(findings, CheckResult.Check.NOISE);
  }

  @Test
  void seesDrift() {
    List<CheckResult> findings = minute(80, (i, t) -> 30 * t).findings(KNOWN);
    onlyComplaint(findings, CheckResult.Check.DRIFT);
    assertThat(told(of(findings, CheckResult.Check.DRIFT).measured())).contains("gf");
  }

  @Test
  void seesAStuckConverter() {
    RigCheck check = new RigCheck();
    for (int i = 0; i < 4800; i++) {
      check.sample(i * 12_500_000L, i < 4000 ? i % 7 : 3);
    }
    assertThat(of(check.findings(KNOWN), CheckResult.Check.STUCK).grade())
        .isEqualTo(CheckResult.Grade.FAIL);
  }

  @Test
  void seesConversionsSentTwice() {
    RigCheck check = new RigCheck();
    Random random = new Random(4);
    int value = 0;
    for (int i = 0; i < 4800; i++) {
      value = i % 2 == 0 ? (int) Math.round(NOISE * random.nextGaussian()) : value;
      check.sample(i * 12_500_000L, value);
    }
    assertThat(of(check.findings(KNOWN), CheckResult.Check.STUCK).grade())
        .isEqualTo(CheckResult.Grade.WARN);
  }

  @Test
  void seesALooseClockWire() {
    RigCheck check = minute(80, (i, t) -> 0);
    check.sample(60_000_000_000L, (1 << 20) - 1);
    check.sample(60_012_500_000L, 12_345);
    onlyComplaint(check.findings(KNOWN), CheckResult.Check.CLOCK_WIRE);
    RigCheck near = new RigCheck();
    for (int i = 0; i < 4800; i++) {
      near.sample(i * 12_500_000L, 16_383 + (i * 37 % 101) - 50);
    }
    assertThat(of(near.findings(KNOWN), CheckResult.Check.CLOCK_WIRE).grade())
        .as("readings that happen to lie around 2^14 - 1")
        .isEqualTo(CheckResult.Grade.PASS);
  }

  @Test
  void seesSpikesOverrangeLossAndABadClock() {
    onlyComplaint(
        minute(80, (i, t) -> i % 500 == 250 ? 5000 : 0).findings(KNOWN), CheckResult.Check.SPIKES);
    RigCheck railed = minute(80, (i, t) -> 0);
    railed.overrange(60_000_000_000L, Rail.HIGH);
    onlyComplaint(railed.findings(KNOWN), CheckResult.Check.OVERRANGE);
    RigCheck lossy = minute(80, (i, t) -> 0);
    lossy.gap(new Gap(Gap.Cause.LOST_SAMPLES, 59_987_500_000L, 60_100_000_000L, 8));
    assertThat(told(of(lossy.findings(KNOWN), CheckResult.Check.LOSS).measured()))
        .startsWith("8 samples lost");
    assertThat(of(lossy.findings(KNOWN), CheckResult.Check.LOSS).grade())
        .isEqualTo(CheckResult.Grade.FAIL);
    RigCheck.Circumstances drifting =
        new RigCheck.Circumstances(
            KNOWN.nominalRate(), KNOWN.calibration(), OptionalDouble.of(-5000), 1, 0);
    onlyComplaint(minute(80, (i, t) -> 0).findings(drifting), CheckResult.Check.CLOCK);
  }

  /** A stream served at ten times real time is no broken oscillator. */
  @Test
  void saysHowFastAStreamRunsThatIsNotInRealTime() {
    RigCheck.Circumstances tenfold =
        new RigCheck.Circumstances(
            KNOWN.nominalRate(), KNOWN.calibration(), OptionalDouble.of(-900_000), 100, 0);
    CheckResult clock = of(minute(80, (i, t) -> 0).findings(tenfold), CheckResult.Check.CLOCK);
    assertThat(clock.grade()).isEqualTo(CheckResult.Grade.WARN);
    assertThat(told(clock.measured()))
        .isEqualTo("device time runs 10.0 times as fast as the host's");
    assertThat(told(clock.meaning())).contains("--speed");
  }

  @Test
  void tooFewSamplesAreAnError() {
    assertThatThrownBy(() -> new RigCheck().findings(KNOWN))
        .isInstanceOf(NotAccepted.class)
        .hasMessageContaining("0 samples");
  }
}
