package snick.cli.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import snick.cut.response.Response;
import snick.cut.response.Ring;
import snick.cut.response.StepShape;
import snick.force.check.CheckResult;

class MechanicsHealthTest {
  private static final Ring SLOW = new Ring(45, 0.1, 0.03, 0.05, 0, 0);
  private static final Ring LONG = new Ring(45, 0.1, 0.01, 0.05, 0, 0);

  /** 1/e after 1/(ζω) = 1/(0.03·2π·45 Hz) = 118 ms, a hundredth after ln 100 of that. */
  @Test
  void aRingIsOverWhenAHundredthOfItIsLeft() {
    assertThat(new MechanicsHealth(SLOW, 320).ringSeconds())
        .isCloseTo(Math.log(100) * 0.1179, within(1e-3));
  }

  /** 1/√12 of 3.125 ms is 0.902 ms, the lag 2ζ/ω is 0.212 ms: together 0.927 ms; 1 gf/(2·that). */
  @Test
  void theLoadingRateFollowsFromWhatIsNotKnownOfTheInstant() {
    assertThat(new MechanicsHealth(SLOW, 320).fastestGramForcePerSecond())
        .isCloseTo(1 / (2 * 0.927e-3), within(1.0));
  }

  @Test
  void aLongRingIsSaidWithWhatToDo() {
    HealthLine line = new MechanicsHealth(LONG, 320).lines().get(0);
    assertThat(line.grade()).isEqualTo(CheckResult.Grade.WARN);
    assertThat(line.measured()).contains("45.0 Hz").contains("1.63 s").contains("0.01");
    assertThat(line.meaning()).contains("320 samples/s shows it");
    assertThat(line.remedy()).contains("rubber foot").doesNotContain("samples/s");
  }

  @Test
  void aRateThatDoesNotShowItIsSaid() {
    HealthLine line = new MechanicsHealth(LONG, 100).lines().get(0);
    assertThat(line.meaning()).contains("does not show its shape");
    assertThat(line.remedy()).contains("315 samples/s or more");
  }

  @Test
  void aShortRingPasses() {
    Ring brief = new Ring(120, 0.1, 0.1, 0.05, 0, 0);
    assertThat(new MechanicsHealth(brief, 1000).lines())
        .allMatch(line -> line.grade() == CheckResult.Grade.PASS);
  }

  @Test
  void slowRatesAskForSlowHands() {
    List<HealthLine> lines = new MechanicsHealth(SLOW, 20).lines();
    assertThat(lines.get(1).grade()).isEqualTo(CheckResult.Grade.WARN);
    assertThat(lines.get(1).remedy()).contains("press slower");
  }

  /** An edge in steps of a sixth of 10 ms, known to 0.3 up to 15 ms after it and to this later. */
  private static Response without(double unlikeness) {
    int half = 12;
    double[] shares = new double[2 * half + 1];
    double[] uncertainties = new double[shares.length];
    for (int i = 0; i < shares.length; i++) {
      shares[i] = i < half ? 1 : 0;
      uncertainties[i] = i - half > 9 ? unlikeness : 0.3;
    }
    StepShape shape = new StepShape(-half / 600.0, 1 / 600.0, shares, uncertainties);
    return new Response(20, Optional.empty(), Optional.of(shape));
  }

  @Test
  void fallsThatAreUnlikeOneAnotherTellOfSwingsBetweenTheSamples() {
    HealthLine line = MechanicsHealth.of(without(0.28), 100).get(0);
    assertThat(line.grade()).isEqualTo(CheckResult.Grade.WARN);
    assertThat(line.measured()).contains("28.0 %");
    assertThat(line.meaning()).contains("faster than 100 samples/s show");
    assertThat(line.remedy()).contains("filter").contains("sample faster");
  }

  @Test
  void fallsThatAreAlikePass() {
    HealthLine line = MechanicsHealth.of(without(0.05), 100).get(0);
    assertThat(line.grade()).isEqualTo(CheckResult.Grade.PASS);
    assertThat(line.measured()).contains("none shows at 100 samples/s");
  }

  @Test
  void whatIsNotKnownIsNoFault() {
    assertThat(MechanicsHealth.of(Response.unknown(), 80))
        .allMatch(line -> line.grade() == CheckResult.Grade.UNKNOWN)
        .anyMatch(line -> line.remedy().contains("--flick"));
    assertThat(MechanicsHealth.ofFlicks(Optional.empty(), 80).get(0).grade())
        .isEqualTo(CheckResult.Grade.WARN);
  }
}
