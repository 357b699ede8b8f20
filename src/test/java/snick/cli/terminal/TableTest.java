package snick.cli.terminal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;

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
