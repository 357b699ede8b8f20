package snick.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cli.option.Settings;
import snick.cli.terminal.ExitCode;

/** What is set once holds in every command; blades and forces are invented. */
class SettingsTest {
  @TempDir private Path folder;

  private Path file;
  private Path store;

  @BeforeEach
  void begin() {
    file = folder.resolve("config/settings");
    store = folder.resolve("store");
  }

  private Ran run(String... line) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    int exit = Main.run(new Settings(file), new PrintWriter(out), new PrintWriter(err), line);
    return new Ran(exit, out.toString(), err.toString());
  }

  private String ok(String... line) {
    Ran ran = run(line);
    assertThat(ran.exit()).as(ran.err()).isZero();
    return ran.out();
  }

  private void twoStages() {
    ok("settings", "store", store.toString());
    ok("session", "start", "evening", "--blade", "kitchen-1");
    new SessionStory(store).cuts(212, 198, 205, 209);
    ok("stage", "honed");
    new SessionStory(store).cuts(210, 199, 206, 211);
  }

  @Test
  void oneIsKeptShownAndUnset() throws IOException {
    assertThat(ok("settings")).contains("margin", "-", "kept in " + file);
    assertThat(ok("settings", "margin", "6")).contains("6");
    ok("settings", "page-port", "8800");
    assertThat(Files.readAllLines(file)).containsExactly("margin = 6", "page-port = 8800");
    ok("settings", "margin", "7.5");
    assertThat(run("settings", "--json").json())
        .containsEntry("margin", "7.5")
        .containsEntry("page_port", "8800")
        .containsEntry("operator", null);
    ok("settings", "margin", "--unset");
    assertThat(Files.readAllLines(file)).containsExactly("page-port = 8800");
  }

  @Test
  void ownLinesStayAndWrongOnesAreNamed() throws IOException {
    Files.createDirectories(file.getParent());
    Files.write(file, List.of("# my bench", "", "margin=5"));
    ok("settings", "operator", "me");
    assertThat(Files.readAllLines(file))
        .containsExactly("# my bench", "", "margin=5", "operator = me");
    Files.write(file, List.of("# my bench", "margn = 5"));
    Ran ran = run("cuts", "list");
    assertThat(ran.exit()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.err()).contains(file + ", line 2: no setting 'margn'; there are: store");
    assertThat(run("cuts", "list", "--help").exit()).isZero();
  }

  @Test
  void theFileStaysReadableByWhomItWas() throws IOException {
    Path plain = Files.writeString(folder.resolve("plain"), "");
    ok("settings", "margin", "6");
    assertThat(Files.getPosixFilePermissions(file)).isEqualTo(Files.getPosixFilePermissions(plain));
    Path elsewhere = Files.move(file, folder.resolve("mine"));
    Files.createSymbolicLink(file, elsewhere);
    for (String mode : List.of("rw-rw-r--", "rw-------")) {
      Files.setPosixFilePermissions(elsewhere, PosixFilePermissions.fromString(mode));
      ok("settings", "margin", "7");
      assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(elsewhere)))
          .isEqualTo(mode);
    }
    assertThat(file).isSymbolicLink().content().contains("margin = 7");
  }

  /** As a program of another number left it. */
  @Test
  void whatAKilledChangeLeftIsGoneWithTheNext() throws IOException {
    Files.createDirectories(file.getParent());
    Files.writeString(file.resolveSibling("snick-0-1.partial-lock"), "");
    Files.writeString(file.resolveSibling("snick-0-1.partial"), "half");
    ok("settings", "margin", "6");
    assertThat(file.getParent())
        .isDirectoryContaining(file::equals)
        .isDirectoryNotContaining("glob:**partial*");
  }

  @Test
  void whatCannotBeIsRefused() {
    assertThat(run("settings", "latitude", "95").err()).contains("latitude cannot be '95'");
    assertThat(run("settings", "margin", "much").err()).contains("margin cannot be 'much'");
    assertThat(run("settings", "colour", "red").err()).contains("no setting 'colour'");
    assertThat(run("settings", "margin", "6", "7").exit()).isEqualTo(ExitCode.USAGE);
    assertThat(file).doesNotExist();
  }

  @Test
  void theStoreAndTheOperatorAreTakenFromThem() {
    ok("settings", "operator", "me");
    twoStages();
    assertThat(store.resolve("snick.db")).exists();
    assertThat(ok("session", "show")).contains("by me");
    assertThat(run("cuts", "list", "--data", folder.resolve("other").toString()).exit())
        .isEqualTo(ExitCode.UNAVAILABLE);
    ok("session", "correct", "evening", "--operator", "she", "--why", "it was she");
    ok("session", "correct", "evening", "--room", "20", "--why", "read later");
    assertThat(ok("session", "show")).contains("by she");
    for (String plot : List.of("cut 1", "stage as found", "response", "progression")) {
      Ran ran = run(("plot " + plot + " -o " + folder.resolve("x.svg")).split(" ", 0));
      assertThat(ran.err()).doesNotContain("\tat ");
    }
  }

  @Test
  void theMarginIsTypedElseTheBladesElseTheOneSetAndAllSayWhichItIs() throws IOException {
    twoStages();
    assertThat(run("coach", "--json").json()).containsEntry("margin_gf", null);
    ok("settings", "margin", "20");
    assertThat(ok("progress")).contains("Margin: 20.0 gf, set for all blades", "equivalent");
    assertThat(ok("coach")).contains("Margin: 20.0 gf, set for all blades");
    ok("blade", "correct", "kitchen-1", "--margin", "30", "--why", "rough work");
    assertThat(ok("progress")).contains("Margin: 30.0 gf, of blade kitchen-1");
    assertThat(ok("report", "--markdown")).contains("of blade kitchen-1");
    assertThat(ok("progress", "--margin", "1")).contains("Margin: 1.00 gf, as typed");
  }
}
