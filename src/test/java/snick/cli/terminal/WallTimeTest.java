package snick.cli.terminal;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.TimeZone;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

class WallTimeTest {
  private final TimeZone before = TimeZone.getDefault();

  @BeforeEach
  void liveFiveAndAHalfHoursEast() {
    TimeZone.setDefault(TimeZone.getTimeZone("GMT+05:30"));
  }

  @AfterEach
  void goBack() {
    TimeZone.setDefault(before);
  }

  @Test
  void theClockOnTheWallIsShownAndNotUtc() {
    Instant at = Instant.parse("2026-05-04T19:59:58.7Z");
    assertThat(WallTime.of(at)).isEqualTo("2026-05-05 01:29:58");
    assertThat(WallTime.minute(at)).isEqualTo("2026-05-05 01:29");
    assertThat(WallTime.day(at)).isEqualTo("2026-05-05");
  }
}
