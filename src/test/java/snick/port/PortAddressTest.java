package snick.port;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PortAddressTest {
  @TempDir Path folder;

  @Test
  void tellsDevicesFromFilesFromNames() throws Exception {
    Path log = Files.createFile(folder.resolve("log.txt"));

    assertThat(PortAddress.parse("-")).isEqualTo(new PortAddress.StandardInput());
    assertThat(PortAddress.parse("/dev/ttyACM0"))
        .isEqualTo(new PortAddress.SerialDevice(Path.of("/dev/ttyACM0")));
    assertThat(PortAddress.parse(log.toString())).isEqualTo(new PortAddress.RecordedFile(log));
    assertThat(PortAddress.parse("com3")).isEqualTo(new PortAddress.SerialDevice(Path.of("COM3")));
    assertThat(PortAddress.parse("COM256").text()).isEqualTo("COM256");
    assertThat(PortAddress.parse("COMMON-rig")).isEqualTo(new PortAddress.SerialName("COMMON-rig"));
    assertThat(PortAddress.parse("a1b2")).isEqualTo(new PortAddress.SerialName("a1b2"));
    assertThat(PortAddress.parse("tcp://127.0.0.1:4000"))
        .isEqualTo(new PortAddress.Tcp("127.0.0.1", 4000));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"tcp://", "tcp://host", "tcp://host:0", "tcp://host:70000", "tcp://a b:1"})
  void refusesNetworkAddressesWithoutHostOrPort(String text) {
    assertThatThrownBy(() -> PortAddress.parse(text))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining(text);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", " ", "a\0b"})
  void refusesWhatCanBeNoName(String text) {
    assertThatThrownBy(() -> PortAddress.parse(text)).isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void onlyFilesAndStandardInputEnd() {
    assertThat(PortAddress.parse("-").live()).isFalse();
    assertThat(PortAddress.parse("/dev/ttyACM0").live()).isTrue();
    assertThat(PortAddress.parse("tcp://localhost:4000").live()).isTrue();
  }
}
