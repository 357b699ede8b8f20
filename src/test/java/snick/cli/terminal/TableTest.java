package snick.cli.terminal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;
import snick.phrase.Phrase;
import snick.phrase.Words;

class TableTest {
  @Test
  void textStandsLeftAndNumbersRight() {
    Table table = new Table("NAME", ">GF");
    table.row("a", "9.5");
    table.row("longer", "131.4");

    assertThat(print(table)).isEqualTo("NAME       GF\na         9.5\nlonger  131.4\n");
  }

  @Test
  void hostileTextStaysInItsCell() {
    Table table = new Table("NAME");
    table.row("a\u001b[2J\nb");

    assertThat(print(table)).isEqualTo("NAME\na\\u001b[2J b\n");
  }

  @Test
  void aWideColumnIsBroken() {
    Table table = new Table("WHAT", "EXPECTED", ">N").broken(1, 12);
    table.row("noise", "at most half of what was before", "3");
    table.row("port", "/dev/serial/by-id/usb", "14");

    assertThat(print(table))
        .isEqualTo(
            """
            WHAT   EXPECTED       N
            noise  at most half   3
                   of what was
                   before
            port   /dev/serial/  14
                   by-id/usb
            """);
  }

  @Test
  void neitherAnEscapeNorALetterIsBrokenInTwo() {
    Table table = new Table("NAME").broken(0, 8);
    table.row("abcdef\u001bgh");
    table.row("abcdefg\ud83d\ude00h");
    table.row("  abcd    efgh     ");

    assertThat(print(table))
        .isEqualTo("NAME\nabcdef\n\\u001bgh\nabcdefg\n\ud83d\ude00h\nabcd\nefgh\n");
  }

  @Test
  void aPhraseIsSaidInEnglish() {
    Table table = new Table("SOURCE");
    table.row(Phrase.of("merit.by_us"));

    assertThat(print(table)).isEqualTo("SOURCE\n" + Words.english().say("merit.by_us") + "\n");
  }

  @Test
  void aRowFitsItsHeads() {
    assertThatThrownBy(() -> new Table("A", "B").row("x"))
        .isInstanceOf(IllegalArgumentException.class);
  }

  private static String print(Table table) {
    StringWriter text = new StringWriter();
    PrintWriter out = new PrintWriter(text);
    table.print(out);
    out.flush();
    return text.toString().replace(System.lineSeparator(), "\n");
  }
}
