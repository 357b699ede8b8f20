package snick.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The firmware for the board, built by avr-gcc. */
@NeedsTools({Tool.AVR_GCC, Tool.MAKE})
@Timeout(120)
class FirmwareSizeIT {
  private static final Pattern SIZE =
      Pattern.compile("flash (\\d+) of 32768 bytes .*static RAM (\\d+) of 2048 bytes");

  @Test
  void leavesMoreThanHalfOfTheBoardFree() throws Exception {
    String printed = Make.REFERENCE.run("all");
    Matcher size = SIZE.matcher(printed);
    assertThat(size.find()).as(printed).isTrue();
    System.out.println("Firmware: " + size.group());
    assertThat(Integer.parseInt(size.group(1))).isBetween(1_000, 32_768 / 4);
    assertThat(Integer.parseInt(size.group(2))).isBetween(100, 896);
  }
}
