package snick.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
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
}
