package snick.cli.journal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import snick.cli.Ran;
import snick.cli.SessionStory;
import snick.cli.terminal.ExitCode;

/** The journal and its verdicts as a person types them; blades and forces are invented. */
class JournalCommandsTest {
  private static final Pattern ENTRY = Pattern.compile("^\\[(\\d+)\\]", Pattern.MULTILINE);

  @TempDir private Path data;

  private SessionStory story;

  @BeforeEach
  void begin() {
    story = new SessionStory(data);
  }

  private String ok(String... command) {
    Ran ran = story.run(command);
    assertThat(ran.exit()).as(ran.err()).isZero();
    return ran.out();
  }

  private static void assertRefused(Ran ran, String complaint) {
    assertThat(ran.exit()).as(ran.out()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.err().lines().filter(line -> !line.contains("'snick' here means")))
        .singleElement()
        .satisfies(line -> assertThat(line).startsWith("snick: ").contains(complaint));
    assertThat(ran.out()).isEmpty();
  }

  private static String entry(String printed) {
    Matcher matcher = ENTRY.matcher(printed);
    assertThat(matcher.find()).as(printed).isTrue();
    return matcher.group(1);
  }

  private void evening() {
    ok("session", "start", "evening", "--blade", "kitchen-1");
  }

  @Test
  void aWholeSessionIsToldByCommands() throws IOException {
    ok("blade", "add", "kitchen-1", "--length", "180", "--angle", "30");
    ok("lot", "add", "spool-a", "--material", "nylon", "--diameter", "0.25");
    assertThat(ok("session", "start", "evening", "--blade", "kitchen-1", "--lot", "spool-a"))
        .contains("stage 1 'as found', 0 cuts", "Next: make 5 cuts, the next one at 90 mm");
    story.cuts(212, 198, 205, 221, 209);
    assertThat(ok("place", "90")).contains("cut 5 at 90 mm", "next cut at 10 mm");
    ok("inspect", "l", "light", "burr");
    assertThat(ok("inspect", "r", "n")).contains("raking light, right: none");
    assertThat(ok("coach")).contains("a burr is likely");
    assertThat(ok("burr")).contains("Burr in 'as found': likely", "Next cheapest check: ");

    ok("stage", "deburred");
    ok("step", "ceramic", "rod", "--grit", "1200", "--pressure", "light", "--strokes", "5");
    story.cuts(131, 127, 138, 124, 133);
    ok("inspect", "b", "light", "none");
    ok("stage", "stropped");
    ok("step", "leather", "strop", "--direction", "trailing", "--strokes", "20");
    story.cuts(94, 90, 97, 91, 95);
    ok("inspect", "b", "light", "none");
    ok("inspect", "paper", "clean");
    ok("stage", "stropped", "again");
    story.cuts(93, 95, 92, 94, 96);

    Map<String, Object> compared = story.run("compare", "as found", "DEBURRED", "--json").json();
    assertThat(compared).containsEntry("verdict", "lower").containsEntry("difference", -78.4);
    assertThat(ok("progress", "--margin", "6"))
        .contains("Plateau: reached", "stropped again", "equivalent")
        .doesNotContain("settings margin");
    assertThat(ok("progress")).contains("snick settings margin GF");
    assertThat(ok("coach", "--margin", "6")).isNotBlank();
    assertThat(ok("trust")).containsPattern("raking light +1 +0 +0 % +0 % to 98 % +1 +0");

    ok("session", "stop");
    assertThat(ok("session", "list")).contains("evening", "kitchen-1", "spool-a", "20");
    assertThat(ok("burr", "stropped", "--session", "evening")).contains("not indicated");
  }

  @Test
  void aCorrectionKeepsTheOldEntry() throws IOException {
    evening();
    String wrong = entry(ok("inspect", "l", "light", "burr"));
    String right =
        entry(ok("inspect", "r", "light", "burr", "--correct", wrong, "--why", "wrong side"));
    assertThat(ok("session", "show")).contains("right: burr seen").doesNotContain("left");
    assertThat(ok("session", "show", "--all"))
        .contains("left: burr seen (corrected by [" + right + "])")
        .contains("[" + right + "] corrects [" + wrong + "], wrong side");
    List<?> entries = (List<?>) story.run("session", "show", "--json").json().get("entries");
    assertThat(entries).hasSize(2);
    assertRefused(
        story.run("inspect", "l", "light", "n", "--correct", wrong, "--why", "x"),
        "already corrected by entry " + right);
  }

  @Test
  void aCorrectedStepKeepsWhatWasNotSaidAgain() {
    evening();
    String wrong = entry(ok("step", "rod", "--grit", "1200", "--strokes", "5"));
    assertThat(ok("step", "rod", "--strokes", "6", "--correct", wrong, "--why", "miscounted"))
        .contains("rod, grit 1200, 6 strokes a side");
    assertRefused(
        story.run("inspect", "l", "light", "n", "--correct", wrong, "--why", "x"),
        "is of another kind");
  }

  @Test
  void bladeLotAndSessionAreCorrectedWithAReason() throws IOException {
    evening();
    ok("blade", "correct", "kitchen-1", "--angle", "32", "--why", "measured");
    assertThat(ok("blade", "show", "kitchen-1"))
        .contains("32° edge", "corrects [", "measured", "1 evening");
    ok("lot", "add", "spool-a", "--material", "nylon", "--diameter", "0.25");
    ok("lot", "correct", "spool-a", "--diameter", "0.26", "--why", "measured");
    assertThat(ok("lot", "correct", "spool-a", "--tension", "1.5", "--why", "weighed"))
        .contains("now lot 'spool-a', nylon, 0.26 mm, tension 1.5 N (153 gf)");
    assertThat(ok("lot", "list")).contains("0.26 mm, tension 1.5 N (153 gf)");
    assertThat(story.run("lot", "list", "--json").json())
        .containsEntry("diameter_mm", 0.26)
        .containsEntry("tension_n", 1.5);
    assertRefused(
        story.run("lot", "correct", "spool-a", "--tension", "501", "--why", "x"),
        "filament tension 501.0 N is outside 0.01 to 500.0 N");
    assertThat(story.run("lot", "add", "spool-c", "--material", "nylon").err())
        .contains("--diameter is missing");
    ok("session", "correct", "evening", "--lot", "spool-a", "--why", "forgotten");
    assertThat(ok("session", "show")).contains("filament spool-a");
  }

  @Test
  void nothingIsNotedOnceTheSessionIsClosedButCorrectionsAre() {
    evening();
    String entry = entry(ok("inspect", "l", "light", "burr"));
    ok("session", "stop");
    String before = ok("session", "show", "evening", "--all");
    assertRefused(story.run("inspect", "l", "light", "n", "--session", "evening"), "was closed at");
    assertRefused(story.run("step", "rod", "--session", "evening"), "was closed at");
    assertRefused(story.run("stage", "more", "--session", "evening"), "was closed at");
    assertRefused(story.run("inspect", "l", "light", "n"), "no session is open");
    assertThat(ok("session", "show", "evening", "--all")).isEqualTo(before);
    ok("inspect", "l", "light", "u", "--correct", entry, "--why", "dim", "--session", "evening");
  }

  @Test
  void aCutSetAsideStaysButCountsNoMore() {
    evening();
    story.cuts(212, 198, 305);
    assertThat(ok("cuts", "set-aside", "3", "--reason", "the clamp slipped"))
        .contains("cut 3 is set aside: the clamp slipped");
    assertThat(ok("session", "show")).contains("cut 3, place not noted, set aside: the clamp");
    assertThat(ok("cuts", "list")).contains("set aside: the clamp slipped");
    assertThat(ok("progress")).containsPattern("as found +2 +205");
    ok("cuts", "set-aside", "3", "--take-back", "--reason", "it was another");
    assertThat(ok("progress")).containsPattern("as found +3 +238");
    assertRefused(
        story.run("cuts", "set-aside", "9", "--reason", "x"), "cut 9 is not in the store");
  }

  @Test
  void aCutIsMovedToTheStageItBelongsTo() {
    evening();
    story.cuts(131);
    ok("stage", "deburred");
    story.cuts(127);
    assertThat(ok("place", "40", "--cut", "1", "--stage", "deburred", "--why", "begun too late"))
        .contains("corrects [", "begun too late", "stage 'deburred'");
    assertThat(ok("stage")).contains("stage 2 'deburred', 2 cuts");
  }

  @Test
  void cutsMadeBeforeASessionCanBePlacedInIt() {
    story.cuts(131);
    evening();
    assertRefused(
        story.run("place", "40"),
        "has no cuts yet; record one first: snick run --data " + data + " PORT");
    ok("place", "40", "--cut", "1");
    assertThat(ok("stage")).contains("1 cut");
  }

  @Test
  void ofSeveralRunningSessionsOneMustBeSaid() {
    evening();
    ok("session", "start", "late", "--blade", "garden", "--rig", SessionStory.RIG);
    assertRefused(story.run("stage", "x"), "2 sessions are open: 'late' (rig " + SessionStory.RIG);
    assertThat(ok("stage", "x", "--rig", SessionStory.RIG)).contains("stage 2 'x'");
    assertThat(ok("stage", "y", "--session", "evening")).contains("stage 2 'y'");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "inspect l light|finding is missing",
        "inspect light none|side is missing",
        "inspect l light 35 none|'35' has no unit",
        "inspect l magnifier none|a magnifier needs its magnification",
        "inspect l light tears|does not fit raking light",
        "inspect l light perfect|word 'perfect' is not known",
        "step rod --grit 0|grit 0 is outside 1",
        "step rod --direction sideways|edge direction 'sideways' is not known: use edge-leading",
        "step rod --stage nix|stage 'nix' is not in session evening: it has as found",
        "stage as found|stage 'as found' is already in this session",
        "place 35|has no cuts yet",
        "place 35 --cut 7|cut 7 is not in the store",
        "compare nix deburred|stage 'nix' is not in session evening",
        "compare as-found as-found --session nix|session 'nix' is not in the journal",
        "burr nix|stage 'nix' is not in session evening",
        "progress --session nix|session 'nix' is not in the journal",
        "blade show nix|blade 'nix' is not in the journal",
        "blade add kitchen-1|blade 'kitchen-1' is already in the journal",
        "blade add x --angle NaN|edge angle NaN ° is outside",
        "session start evening --blade b|session 'evening' is already in the journal",
        "session start x --blade b --lot nix|filament lot 'nix' is not in the journal",
        "chart --blade kitchen-1|has 0 cuts with a force",
        "lot compare a b --blade kitchen-1|filament lot 'a' is not in the journal",
        "study repeatability evening|needs 2 groups or more",
      })
  void whatIsNotAcceptedIsSaidAndChangesNothing(String command, String complaint) {
    evening();
    String before = ok("session", "show", "--json");
    assertRefused(story.run(command.split(" ")), complaint);
    assertThat(ok("session", "show", "--json")).isEqualTo(before);
  }

  @Test
  void forcesReadElsewhereCountLikeCuts() throws IOException {
    evening();
    ok("cuts", "enter", "212,198.5,205");
    ok("stage", "deburred");
    assertThat(ok("cuts", "enter", "131,127,138")).contains("stage 2 'deburred', 3 cuts");
    Map<String, Object> first =
        Ran.object(story.run("compare", "as found", "deburred", "--json").json(), "first");
    assertThat(Ran.number(first.get("mean"))).isCloseTo(615.5 / 3, within(1e-9));
    assertRefused(story.run("cuts", "enter", "131,-5"), "a force of -5.0 gf is outside 0");
    assertRefused(story.run("cuts", "enter", "131,x"), "value 2 is 'x', not a number");
    ok("session", "stop");
    assertRefused(story.run("cuts", "enter", "131", "--session", "evening"), "was closed at");
    assertRefused(story.run("plot", "cut", "1", "-o", "unmade.svg"), "cut 1 has no trace to draw");
    assertThat(ok("cuts", "list", "--json")).hasLineCount(6);
  }

  @Test
  void aStageWithOneCutIsNotCompared() {
    evening();
    story.cuts(131);
    ok("stage", "deburred");
    assertRefused(story.run("compare", "as found", "deburred"), "'deburred' has no cuts");
    story.cuts(100, 101);
    assertRefused(story.run("compare", "as found", "deburred"), "as found has 1 cut, at least 2");
    assertThat(ok("progress")).contains("'as found' is not compared", "Nothing to compare yet");
  }

  @Test
  void aKeptStudyOfTheRigEntersTheVerdicts() throws IOException {
    ok("session", "start", "monday", "--blade", "reference", "--rig", SessionStory.RIG);
    story.cuts(90, 110, 95, 105, 100);
    ok("session", "stop");
    ok("session", "start", "tuesday", "--blade", "reference", "--rig", SessionStory.RIG);
    story.cuts(92, 108, 97, 103, 101);
    ok("session", "stop");
    assertThat(ok("study", "repeatability", "monday", "tuesday", "--keep"))
        .contains("10 cuts in 2 groups");

    ok("session", "start", "evening", "--blade", "kitchen-1", "--rig", SessionStory.RIG);
    story.cuts(100.1, 100.2, 100.3);
    ok("stage", "stropped");
    story.cuts(98.1, 98.2, 98.3);
    Map<String, Object> compared = story.run("compare", "as found", "stropped", "--json").json();
    assertThat(compared).containsEntry("verdict", "no_difference_shown");
    assertThat(Ran.object(compared, "more")).containsEntry("exceeds_rig", false);
  }

  @Test
  void aReferenceEdgeIsChartedAndLotsComparedOnIt() {
    ok("lot", "add", "a", "--material", "nylon", "--diameter", "0.25");
    ok("lot", "add", "b", "--material", "nylon", "--diameter", "0.25", "--tension", "2");
    ok("session", "start", "old", "--blade", "reference", "--lot", "a");
    story.cuts(91, 94, 90, 95, 93, 92, 96, 91, 93);
    ok("session", "stop");
    ok("session", "start", "new", "--blade", "reference", "--lot", "b");
    story.cuts(108, 107, 110, 109);
    assertThat(ok("chart", "--blade", "reference", "--lot", "a")).contains("1 cut against limits");
    Ran both = story.run("chart", "--blade", "reference");
    assertThat(both.exit()).isEqualTo(ExitCode.NOT_PASSED);
    assertThat(both.out()).contains("value, weighted mean");
    assertThat(ok("lot", "compare", "a", "b", "--blade", "reference"))
        .contains("Verdict: higher", "tension not noted, then tension 2 N (204 gf)");
    assertThat(ok("blade", "show", "reference"))
        .contains("other filament lot (tension not noted, then tension 2 N (204 gf))");
  }

  @Test
  void wearIsReadFromStagesOrATable() throws IOException {
    evening();
    story.cuts(90, 92);
    ok("stage", "after 20");
    story.cuts(110, 113);
    ok("stage", "after 40");
    story.cuts(133, 130);
    assertThat(
            ok(
                "wear",
                "--at",
                "as found=0",
                "--at",
                "after 20=20",
                "--at",
                "after 40=40",
                "--unit",
                "metres",
                "--material",
                "cardboard",
                "--dull",
                "210"))
        .contains("Wear: the force rises", "half the gain is lost at");
    Path table = data.resolve("wear.csv");
    Files.writeString(table, "work,value\n0,90\n0,NaN\n");
    assertRefused(
        story.run("wear", "--csv", table.toString(), "--unit", "m", "--material", "x"),
        "line 3: value 'NaN' is not a number");
  }

  @Test
  void hostileNotesAreShownInert() {
    evening();
    assertThat(ok("inspect", "l", "light", "none", ":", "\u202egnp.exe"))
        .contains("\\u202egnp.exe")
        .doesNotContain("\u202e");
    assertRefused(
        story.run("inspect", "l", "light", "none", ":", "\u001b[2J"), "control character");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "blade add",
        "blade list",
        "blade show",
        "blade correct",
        "lot add",
        "lot list",
        "lot correct",
        "lot compare",
        "session start",
        "session stop",
        "session list",
        "session show",
        "session correct",
        "stage",
        "step",
        "inspect",
        "place",
        "cuts set-aside",
        "cuts enter",
        "compare",
        "progress",
        "burr",
        "coach",
        "trust",
        "study repeatability",
        "study crossed",
        "chart",
        "wear"
      })
  void everyCommandHasHelpWithAnExampleOfItself(String command) {
    Ran ran = story.run((command + " --help").split(" "));
    assertThat(ran.exit()).isZero();
    assertThat(ran.out()).containsPattern("Examples?[^\n]*:\n.*\n* *snick " + command);
  }
}
