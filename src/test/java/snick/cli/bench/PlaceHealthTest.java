package snick.cli.bench;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import snick.force.check.CheckResult;
import snick.store.KeptPlace;

class PlaceHealthTest {
  private static final Instant THEN = Instant.parse("2026-05-04T18:00:00Z");

  @Test
  void aLargeShareIsWarnedOfWithTheWayOut() {
    HealthLine line = PlaceHealth.of(Optional.of(new KeptPlace(0.2, 0.005, THEN)));
    assertThat(line.grade()).isEqualTo(CheckResult.Grade.WARN);
    assertThat(line.measured()).isEqualTo("20.00 % by place");
    assertThat(line.remedy()).contains("cell-to-edge.md", "snick verify place");
  }

  @Test
  void aSmallOneIsPassedAndNoneIsNotKnown() {
    assertThat(PlaceHealth.of(Optional.of(new KeptPlace(0.005, 0.005, THEN))).grade())
        .isEqualTo(CheckResult.Grade.PASS);
    HealthLine none = PlaceHealth.of(Optional.empty());
    assertThat(none.word()).isEqualTo("not known");
    assertThat(none.meaning()).contains("never checked");
  }
}
