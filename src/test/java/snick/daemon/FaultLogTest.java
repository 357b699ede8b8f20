package snick.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;
import snick.live.Fact;
import snick.phrase.Phrase;

class FaultLogTest {
  private static final Instant NOON = Instant.parse("2026-01-01T12:00:00Z");

  private final FaultLog log = new FaultLog(Clock.fixed(NOON, ZoneOffset.UTC));

  @Test
  void theSameThingIsOneFactWithACount() {
    assertThat(log.note("link lost", Phrase.of("port.went_away", "port", "a"))).isTrue();
    assertThat(log.note("link lost", Phrase.of("port.went_away", "port", "b"))).isFalse();

    assertThat(log.facts())
        .containsExactly(
            new Fact("link lost", Phrase.of("port.went_away", "port", "b"), 2, NOON, NOON));
  }

  @Test
  void endlessKindsTakeBoundedMemory() {
    for (int i = 0; i < 10_000; i++) {
      log.note("kind " + i, Phrase.of("fault.said", "what", "x"));
    }

    assertThat(log.facts()).hasSizeLessThanOrEqualTo(65);
    assertThat(log.facts().stream().mapToLong(Fact::count).sum()).isEqualTo(10_000);
  }
}
