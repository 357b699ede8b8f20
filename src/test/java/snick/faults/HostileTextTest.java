package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cli.Ran;
import snick.frame.binary.DeviceFrames;
import snick.frame.message.Hello;
import snick.journal.Blade;
import snick.store.StoreReader;
import snick.virtualrig.script.Action;
import snick.virtualrig.settings.TextForm;

/**
 * Names, notes and a rig's firmware that are written to do something to whoever looks at them: turn
 * a terminal red, turn writing round, run a script, be a formula.
 */
class HostileTextTest {
  /** 32 bytes: sets the terminal's title, then red. */
  private static final String FIRMWARE = "\u001b]0;pwned\u0007\u001b[31m\u009b2J<script>";

  private static final String SCRIPT =
      "=cmd|'x'!A0\"><script>alert(1)</script><img src=x onerror=alert(1)>\u202egnp";

  @TempDir static Path folder;
  private static Path data;

  @BeforeAll
  static void record() throws Exception {
    data = folder.resolve("data");
    snick("blade", "add", SCRIPT, "--steel", SCRIPT, "--notes", SCRIPT);
    snick("lot", "add", "@SUM(1)" + SCRIPT, "--material", SCRIPT, "--diameter", "0.3");
    snick("session", "start", "--blade", SCRIPT, "--operator", SCRIPT, "--", "-1+2" + SCRIPT);
    Path log = folder.resolve("log\u001b[31m.capture");
    Files.write(log, hostile(Streams.twoCuts()));
    run(log);
    run(log);
    snick("stage", "+" + SCRIPT);
    run(log);
    snick("step", SCRIPT, "--note", SCRIPT);
    snick("inspect", "l", "light", "burr", ":", SCRIPT);
    snick("cuts", "set-aside", "2", "--reason", SCRIPT);
  }

  private static void run(Path log) {
    Ran run = snick("run", log.toString(), "--no-http", "--counts-per-gf", "437.25");
    assertThat(run.exit()).as(run.err()).isZero();
  }

  /** Its first message, hello, exchanged for one of a hostile device. */
  private static byte[] hostile(byte[] stream) {
    DeviceFrames frames = new DeviceFrames();
    byte[] frame = new byte[DeviceFrames.MAX_BYTES];
    int length =
        frames.hello(new Hello(1, 0x51A0_0000_0000_0001L, FIRMWARE, 24, 128, 80_000, 0), frame, 0);
    int end = 1;
    while (stream[end] != DeviceFrames.DELIMITER) {
      end++;
    }
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    bytes.write(DeviceFrames.DELIMITER);
    bytes.write(frame, 0, length);
    bytes.write(stream, end + 1, stream.length - end - 1);
    return bytes.toByteArray();
  }

  private static Ran snick(String... arguments) {
    Ran ran =
        Ran.command(
            Stream.concat(Stream.of("--data", data.toString()), Stream.of(arguments))
                .toArray(String[]::new));
    harmless(ran.out() + ran.err(), String.join(" ", arguments));
    return ran;
  }

  private static void harmless(String text, String of) {
    assertThat(
            text.codePoints()
                .filter(c -> c != '\n' && c != '\t' && c != '\r')
                .map(Character::getType))
        .as(of)
        .doesNotContain(
            (int) Character.CONTROL,
            (int) Character.FORMAT,
            (int) Character.LINE_SEPARATOR,
            (int) Character.PARAGRAPH_SEPARATOR);
  }

  @Test
  void terminals() {
    for (String line :
        List.of(
            "cuts list",
            "cuts list --json",
            "cuts show 1",
            "cuts show 1 --json",
            "cuts show 2",
            "blade list",
            "blade list --json",
            "session list",
            "session list --json",
            "session show",
            "session show --json",
            "lot list",
            "stage",
            "progress",
            "progress --json",
            "burr",
            "coach",
            "coach --json",
            "trust",
            "store check",
            "rederive",
            "response",
            "package list")) {
      snick(line.split(" ", 0));
    }
    snick("blade", "show", SCRIPT);
  }

  @Test
  void theRigItselfIsHostile() {
    try (StoreReader reader = StoreReader.open(data)) {
      String firmware = reader.rigs().get(0).firmware();
      assertThat(firmware).contains("pwned", "<script>");
      harmless(firmware, "firmware");
      assertThat(reader.journal().blades())
          .singleElement()
          .extracting(Blade::label)
          .isEqualTo(SCRIPT);
    }
  }

  /** A file may have any name; a log of lines is called after it. */
  @Test
  void aLogOfAnyNameIsRecordedAndTakenInElsewhere() throws Exception {
    byte[] lines =
        Streams.of(
            usual -> usual.with(usual.device().withText(TextForm.CHECKED)),
            new Action.Rest(3),
            Action.Cut.ofGramForce(100, 200),
            new Action.Rest(2));
    Path log = Files.write(folder.resolve("\u001b[31m\u009b" + "long".repeat(55)), lines);
    Ran ran = snick("run", log.toString(), "--no-http", "--counts-per-gf", "437.25");
    assertThat(ran.exit()).as(ran.err()).isZero();
    assertThat(ran.out()).contains("severed", "gf");
    takenInElsewhere();
  }

  private static void takenInElsewhere() throws IOException {
    Path own = Files.createTempDirectory(folder, "taken");
    Path zip = own.resolve("all.zip");
    assertThat(snick("export", zip.toString(), "--personal").exit()).isZero();
    Path theirs = own.resolve("theirs");
    Ran in = Ran.command("import", zip.toString(), "--data", theirs.toString());
    assertThat(in.exit()).as(in.err()).isZero();
    assertThat(Ran.command("blade", "list", "--json", "--data", theirs.toString()).out())
        .isEqualTo(snick("blade", "list", "--json").out());
  }

  @Test
  void reportsAndPictures() throws Exception {
    for (String form : List.of("", "--markdown")) {
      Path file = folder.resolve("report" + form);
      snick(("report --personal " + form + " -o " + file).split(" +", 0));
      noMarkup(file);
    }
    for (String plot : List.of("cut 1", "stage 1", "progression")) {
      Path svg = folder.resolve(plot.charAt(0) + ".svg");
      Ran ran = snick(("plot " + plot + " -o " + svg).split(" ", 0));
      assertThat(ran.exit()).as(plot + ran.err()).isZero();
      noMarkup(svg);
      DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(svg.toFile());
    }
  }

  private static void noMarkup(Path file) throws IOException {
    String text = Files.readString(file);
    harmless(text, file.toString());
    assertThat(text).doesNotContainPattern("(?<!\\\\)<(script|img)");
  }

  /** See decision 11: a number, a word, a time or nothing; a formula is none of them. */
  @Test
  void noCellOfATableIsAFormula() throws Exception {
    Path made = folder.resolve("package");
    assertThat(
            snick("export", made.toString(), "--personal", "--title", SCRIPT.substring(0, 20))
                .exit())
        .isZero();
    Pattern cell = Pattern.compile("|-?[0-9][-0-9.eE+:TZ]*|INF|[a-z][a-z0-9_ ]*");
    int cells = 0;
    for (String table : List.of("cuts", "traces", "gaps", "overrange", "history")) {
      for (String line : Files.readAllLines(made.resolve(table + ".csv"))) {
        for (String each : line.split(",", -1)) {
          assertThat(each).matches(cell);
          cells++;
        }
      }
    }
    assertThat(cells).isGreaterThan(1_000);
    takenInElsewhere();
  }
}
