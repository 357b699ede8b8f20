package snick.port;

import static org.assertj.core.api.Assertions.assertThat;

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
}
