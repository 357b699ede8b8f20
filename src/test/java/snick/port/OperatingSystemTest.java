package snick.port;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OperatingSystemTest {
  @ParameterizedTest
  @CsvSource({
    "Linux, LINUX",
    "Mac OS X, MAC",
    "Darwin, MAC",
    "Windows 11, WINDOWS",
    "Windows Server 2022, WINDOWS",
    "FreeBSD, LINUX"
  })
  void isToldByWhatJavaCallsIt(String name, OperatingSystem system) {
    assertThat(OperatingSystem.named(name)).isEqualTo(system);
  }

  @Test
  void portsHaveTheNamesThatAPersonTypes() {
    assertThat(Ports.nameOn(OperatingSystem.WINDOWS, "COM3", "\\\\.\\COM3")).isEqualTo("COM3");
    assertThat(Ports.nameOn(OperatingSystem.LINUX, "ttyACM0", "/dev/ttyACM0"))
        .isEqualTo("/dev/ttyACM0");
  }

  @Test
  void onMacOsOnlyTheNameThatDoesNotWaitForACarrierIsListed() {
    assertThat(Ports.isForCalling(OperatingSystem.MAC, "/dev/cu.usbmodem11")).isTrue();
    assertThat(Ports.isForCalling(OperatingSystem.MAC, "/dev/tty.usbmodem11")).isFalse();
    assertThat(Ports.isForCalling(OperatingSystem.LINUX, "/dev/tty.odd")).isTrue();
  }

  /** XDG Base Directory Specification: folders of a person's own lie below $HOME. */
  @Test
  void homeIsWhereTheVariableSaysButOnWindows() {
    Path known = Path.of(System.getProperty("user.home"));
    Path other = Path.of("other").toAbsolutePath();
    Map<String, String> variables = Map.of("HOME", other.toString());
    assertThat(OperatingSystem.LINUX.home(variables)).isEqualTo(other);
    assertThat(OperatingSystem.MAC.home(variables)).isEqualTo(other);
    assertThat(OperatingSystem.WINDOWS.home(variables)).isEqualTo(known);
    assertThat(OperatingSystem.LINUX.home(Map.of("HOME", "relative"))).isEqualTo(known);
    assertThat(OperatingSystem.LINUX.home(Map.of())).isEqualTo(known);
    assertThat(OperatingSystem.WINDOWS.home(Map.of("HOME", "no\0path"))).isEqualTo(known);
  }
}
