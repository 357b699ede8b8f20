package snick.daemon.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

class AskedPortsTest {
  private static final Path ONE = Path.of("/dev/ttyACM0");
  private static final Path OTHER = Path.of("/dev/ttyACM1");
  private static final long BEGIN_NANOS = Long.MAX_VALUE - 5;
  private final AskedPorts asked = new AskedPorts();

  @Test
  void aPortIsLetAloneForAMinute() {
    asked.inVain(ONE, BEGIN_NANOS);

    assertThat(asked.due(ONE, BEGIN_NANOS + TimeUnit.SECONDS.toNanos(60) - 1)).isFalse();
    assertThat(asked.due(ONE, BEGIN_NANOS + TimeUnit.SECONDS.toNanos(60))).isTrue();
    assertThat(asked.due(OTHER, BEGIN_NANOS)).isTrue();
  }

  @Test
  void whatIsPluggedInAgainIsAskedAgain() {
    asked.inVain(ONE, BEGIN_NANOS);
    asked.inVain(OTHER, BEGIN_NANOS);
    asked.keep(List.of(OTHER));

    assertThat(asked.due(ONE, BEGIN_NANOS)).isTrue();
    assertThat(asked.due(OTHER, BEGIN_NANOS)).isFalse();
  }

  @Test
  void aPortThatCannotBeOpenedIsTriedAfterASecondAndThenEverMoreSeldom() {
    List<Long> triedSeconds = new ArrayList<>();
    for (long millis = 0; millis <= 40_000; millis += 200) {
      long nowNanos = BEGIN_NANOS + TimeUnit.MILLISECONDS.toNanos(millis);
      if (asked.due(ONE, nowNanos)) {
        triedSeconds.add(millis / 1000);
        asked.shut(ONE, nowNanos);
      }
    }
    assertThat(triedSeconds).containsExactly(0L, 1L, 3L, 7L, 15L, 23L, 31L, 39L);
    assertThat(asked.due(OTHER, BEGIN_NANOS)).isTrue();
  }

  @Test
  void aPortThatCannotBeOpenedForOnceAfterAMinuteIsTriedASecondLater() {
    long laterNanos = BEGIN_NANOS + TimeUnit.SECONDS.toNanos(60);
    asked.inVain(ONE, BEGIN_NANOS);
    asked.shut(ONE, laterNanos);

    assertThat(asked.due(ONE, laterNanos + TimeUnit.SECONDS.toNanos(1) - 1)).isFalse();
    assertThat(asked.due(ONE, laterNanos + TimeUnit.SECONDS.toNanos(1))).isTrue();
  }
}
