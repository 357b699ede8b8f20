package snick.port;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What the systems' error numbers mean, and what is said then. Linux: errno(3), asm-generic; macOS:
 * errno(2), 4.4BSD's numbers; Windows: System Error Codes of the Win32 interface. From memory.
 */
class OpenRefusalTest {
  @ParameterizedTest
  @CsvSource({
    "LINUX, /dev/ttyACM0, 11, BUSY, (who: fuser /dev/ttyACM0)",
    "LINUX, /dev/ttyACM0, 16, BUSY, (who: fuser /dev/ttyACM0)",
    "LINUX, /dev/ttyACM0, 13, NO_PERMISSION, no permission to read and write /dev/ttyACM0",
    "LINUX, /dev/null, 25, NOT_A_PORT, list them: snick ports",
    "LINUX, /dev/ttyACM0, 5, OTHER, (system error 5); replug the rig",
    "MAC, /dev/cu.usbmodem11, 35, BUSY, (who: lsof /dev/cu.usbmodem11)",
    "MAC, /dev/cu.usbmodem11, 16, BUSY, (who: lsof /dev/cu.usbmodem11)",
    "MAC, /dev/cu.usbmodem11, 11, OTHER, (system error 11); replug the rig",
    "MAC, /dev/cu.usbmodem11, 13, NO_PERMISSION, ask whoever keeps this machine",
    "MAC, /dev/null, 25, NOT_A_PORT, list them: snick ports",
    "WINDOWS, COM3, 5, BUSY, close it: a serial monitor",
    "WINDOWS, COM3, 32, BUSY, close it: a serial monitor",
    "WINDOWS, COM3, 2, NOT_FOUND, COM3 is not there; plug the rig in",
    "WINDOWS, NUL, 1, NOT_A_PORT, list them: snick ports",
    "WINDOWS, COM3, 31, OTHER, COM3 could not be opened (system error 31); replug the rig"
  })
  void saysWhyInTheWordsOfTheSystem(
      OperatingSystem system, Path path, int error, PortException.Reason reason, String words) {
    PortException refusal = OpenRefusal.of(system, path, error);
    assertThat(refusal.reason()).isEqualTo(reason);
    assertThat(refusal).hasMessageContaining(words);
    if (system == OperatingSystem.WINDOWS) {
      assertThat(refusal.getMessage()).doesNotContain("fuser", "lsof", "sudo", "/dev");
    }
  }
}
