package snick.cli.terminal;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snick.port.OperatingSystem;

/** Words as a POSIX shell and as the command prompt take them. */
class ShellWordTest {
  @ParameterizedTest
  @CsvSource(
      quoteCharacter = '`',
      value = {
        "LINUX, kitchen-1, kitchen-1",
        "LINUX, as found, 'as found'",
        "LINUX, it's, 'it'\\''s'",
        "MAC, as found, 'as found'",
        "WINDOWS, kitchen-1, kitchen-1",
        "WINDOWS, COM3, COM3",
        "WINDOWS, C:\\rigs\\data, C:\\rigs\\data",
        "WINDOWS, as found, \"as found\"",
        "WINDOWS, it's, \"it's\"",
        "WINDOWS, a&b, \"a&b\"",
        "WINDOWS, `a,b`, `\"a,b\"`",
        "WINDOWS, 12\" blade, \"12\\\" blade\""
      })
  void isQuotedWhereTheSystemsShellWantsIt(OperatingSystem system, String text, String typed) {
    assertThat(ShellWord.of(text, system)).isEqualTo(typed);
  }
}
