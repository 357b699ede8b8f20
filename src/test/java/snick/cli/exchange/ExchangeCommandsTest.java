package snick.cli.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cli.Main;
import snick.cli.terminal.ExitCode;

class ExchangeCommandsTest {
  @TempDir Path temporary;
  private Path sample;
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  @BeforeEach
  void sample() throws IOException {
    sample = temporary.resolve("format-1.zip");
    try (InputStream in = Main.class.getResourceAsStream("/snick/exchange/format-1.zip")) {
      Files.copy(in, sample);
    }
  }

  private int run(String... args) {
    out.getBuffer().setLength(0);
    err.getBuffer().setLength(0);
    return Main.run(new PrintWriter(out), new PrintWriter(err), args);
  }

  private String data(String name) {
    return "--data=" + temporary.resolve(name);
  }

  private String path(String name) {
    return temporary.resolve(name).toString();
  }

  private void fill() {
    assertThat(run("import", sample.toString(), "--despite-differences", data("a"))).isZero();
  }

  @Test
  void aPackageGoesInAndOutAgain() {
    fill();
    assertThat(out.toString()).contains("6 new cuts stored");
    assertThat(run("import", sample.toString(), "--despite-differences", data("a"))).isZero();
    assertThat(out.toString()).contains("nothing changed");
    assertThat(run("package", "list", data("a"))).isZero();
    assertThat(out.toString())
        .contains("format-1.zip", "package")
        .containsPattern("\\d{4}-\\d\\d-\\d\\d \\d\\d:\\d\\d:\\d\\d ");
    assertThat(out.toString()).contains("LICENCE", "  none  ");
    String[] licensed = {"export", path("o.zip"), "--personal", "--licence=CC0-1.0", data("a")};
    assertThat(run(licensed)).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(err.toString()).contains("without a licence", "--own", "--sender-agreed");
    assertThat(
            run(
                Stream.concat(Stream.of(licensed), Stream.of("--sender-agreed"))
                    .toArray(String[]::new)))
        .isZero();
    assertThat(out.toString()).contains("6 cuts in", "Licence: CC0-1.0.");
    assertThat(temporary.resolve("o.zip")).isRegularFile();
    assertThat(run("package", "check", path("o.zip"))).isZero();
    assertThat(out.toString())
        .contains("6 cuts, ", "digests, tables", "bear out all that is stated.");
  }

  private String checked(String... export) {
    assertThat(run(export)).isZero();
    assertThat(run("package", "check", export[1])).isZero();
    return out.toString();
  }

  private void typeIn(String store) {
    assertThat(run("session", "start", "typed", "--blade", "petty", data(store))).isZero();
    assertThat(run("cuts", "enter", "212,198,205", data(store))).isZero();
  }

  @Test
  void tracesBearOutOnlyCutsThatHaveOne() {
    typeIn("typed");
    assertThat(checked("export", path("typed.zip"), "--personal", data("typed")))
        .contains("3 have no trace", "There is no raw trace to bear out what is stated.")
        .doesNotContain("bear out all");
    fill();
    assertThat(run("rederive", "--detect", data("a"))).isZero();
    typeIn("a");
    assertThat(checked("export", path("o.zip"), "--personal", "--sender-agreed", data("a")))
        .contains("6 cuts derived again", "3 have no trace")
        .contains("bear out all that is stated of the cuts that have a trace.");
  }

  @Test
  void whatCannotBeIsRefusedInOneLineWithItsStatus() throws IOException {
    fill();
    assertThat(run("export", sample.toString(), data("a"))).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(err.toString()).contains("is there already");
    assertThat(run("export", path("x"), "--stage", "s", data("a"))).isEqualTo(ExitCode.USAGE);
    assertThat(run("export", path("x"), "--session", "none", data("a")))
        .isEqualTo(ExitCode.BAD_INPUT);
    assertThat(run("export", path("x"), "--from", "soon", data("a"))).isEqualTo(ExitCode.USAGE);
    assertThat(run("export", path("x"), "--licence", "a b", data("a"))).isEqualTo(ExitCode.USAGE);
    assertThat(run("export", path("no/x"), data("a"))).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(run("import", path("none.zip"), data("a"))).isEqualTo(ExitCode.BAD_INPUT);
    Files.writeString(temporary.resolve("torn.zip"), "PK\u0003\u0004 and no more");
    assertThat(run("import", path("torn.zip"), data("a"))).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(run("package", "check", path("torn.zip"))).isEqualTo(ExitCode.BAD_INPUT);
    Files.writeString(temporary.resolve("empty.txt"), "nothing here\n");
    assertThat(run("import", path("empty.txt"), data("a"))).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(err.toString()).contains("holds no samples");
    assertThat(temporary.resolve("x")).doesNotExist();
  }

  @Test
  void parquetGoesIntoANewFolder() throws IOException {
    fill();
    assertThat(run("export", path("pool"), "--parquet", data("a"))).isEqualTo(ExitCode.USAGE);
    assertThat(err.toString()).contains("--contributor NAME");
    assertThat(run("export", path("pool"), "--parquet", "--contributor=ann", data("a"))).isZero();
    try (Stream<Path> contributors = Files.list(temporary.resolve("pool/cuts"))) {
      assertThat(contributors.map(f -> f.getFileName().toString()))
          .singleElement()
          .asString()
          .matches("contributor=package-[0-9a-f]{12}");
    }
  }

  @Test
  void theStoreIsCheckedBackedUpRestoredAndSalvaged() throws IOException {
    fill();
    assertThat(run("rederive", "--detect", data("a"))).isZero();
    assertThat(run("store", "check", data("a"))).isZero();
    assertThat(out.toString()).contains("6 traces checked, 0 damaged", "is sound");
    assertThat(run("store", "backup", path("b.db"), data("a"))).isZero();
    assertThat(run("store", "backup", path("b.db"), data("a"))).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(err.toString()).contains("already there");
    assertThat(run("store", "restore", path("none.db"), data("c"))).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(err.toString()).contains(path("none.db") + " cannot be read: there is no such file");
    assertThat(run("store", "backup", path("c.db"), data("none"))).isEqualTo(ExitCode.UNAVAILABLE);
    assertThat(run("store", "restore", path("b.db"), data("c"))).isZero();
    assertThat(run("store", "check", data("c"))).isZero();
    assertThat(run("store", "salvage", path("a"), data("d"))).isZero();
    assertThat(run("store", "check", data("d"))).isZero();
    assertThat(run("store", "restore", path("b.db"), data("d"))).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(run("store", "salvage", path("a"), data("d"))).isEqualTo(ExitCode.BAD_INPUT);
  }

  @Test
  void theCommandsThatMessagesAndPagesNameAreThere() {
    for (String command : new String[] {"check", "backup", "restore", "salvage"}) {
      assertThat(run("store", command, "--help")).isZero();
      assertThat(out.toString()).contains("snick store " + command);
    }
    assertThat(run("package", "check", "--help")).isZero();
    assertThat(run("import", "--help")).isZero();
    assertThat(out.toString()).contains("--as", "--started", "--rig");
  }
}
