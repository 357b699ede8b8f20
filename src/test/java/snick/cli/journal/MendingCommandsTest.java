package snick.cli.journal;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cli.Ran;
import snick.cli.SessionStory;
import snick.cli.terminal.ExitCode;

/** Mistakes in the journal and how a person mends them; blades and forces are invented. */
class MendingCommandsTest {
  @TempDir private Path data;

  private SessionStory story;

  @BeforeEach
  void begin() {
    story = new SessionStory(data);
    ok("session", "start", "evening", "--blade", "kitchen-1");
    story.cuts(212, 198, 205);
  }

  private String ok(String... command) {
    Ran ran = story.run(command);
    assertThat(ran.exit()).as(ran.err()).isZero();
    return ran.out();
  }

  private void refused(String complaint, String... command) {
    Ran ran = story.run(command);
    assertThat(ran.exit()).as(ran.out()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.err()).contains(complaint);
  }

  private List<String> means(String session) throws IOException {
    List<?> stages =
        (List<?>) story.run("progress", "--session", session, "--json").json().get("stages");
    return stages.stream()
        .map(Map.class::cast)
        .map(s -> s.get("name") + " " + s.get("n") + " " + Math.round((double) s.get("mean")))
        .toList();
  }

  @Test
  void aStageIsRenamedAndWhatItWasCalledStaysOnRecord() {
    assertThat(ok("stage", "found", "--rename", "as found", "--why", "shorter"))
        .contains("stage 'as found' renamed to 'found', shorter");
    assertThat(ok("session", "show"))
        .contains("stage 1 'found'", "stage 'as found' renamed to 'found'")
        .contains("cut 3");
    assertThat(ok("burr", "found")).contains("Burr in 'found'");
  }

  @Test
  void aStageBegunByMistakeIsMergedIntoAnother() throws IOException {
    ok("stage", "debured");
    story.cuts(131, 127);
    ok("inspect", "l", "light", "none");
    refused("stage 'deburred' is new; did you mean debured?", "stage", "deburred");
    ok("stage", "deburred", "--new");
    story.cuts(138);
    ok("stage", "stropped");
    story.cuts(94, 90, 97);
    ok("stage", "deburred", "--merge", "debured", "--why", "one and the same");

    assertThat(means("evening"))
        .containsExactly("as found 3 205", "deburred 3 132", "stropped 3 94");
    assertThat(ok("session", "show"))
        .contains("stage 2 'deburred'", "stage 3 'stropped'", "merged into 'deburred'")
        .doesNotContain("stage 2 'debured'")
        .contains("raking light, left: none");
    assertThat(ok("cuts", "list", "--session", "eve"))
        .contains("deburred")
        .doesNotContain("debured");
    ok("stage", "finished");
    assertThat(ok("session", "show")).contains("stage 4 'finished'");
  }

  @Test
  void cutsAreMovedBetweenStagesAndSessions() throws IOException {
    ok("stage", "deburred");
    story.cuts(131);
    ok("cuts", "move", "2,3", "--stage", "deb", "--why", "begun too late");
    assertThat(ok("session", "show", "--all")).contains("corrects [", "begun too late");
    ok("session", "stop");
    ok("session", "start", "night", "--blade", "pocket");
    story.cuts(300, 310);
    ok("cuts", "move", "5", "6", "--session", "evening", "--stage", "1", "--why", "wrong knife");

    assertThat(means("evening")).containsExactly("as found 3 274", "deburred 3 178");
    assertThat(ok("session", "show", "night")).doesNotContain("cut 5");
    assertThat(ok("session", "show", "night", "--all")).contains("withdrawn");
    ok("cuts", "move", "5", "--session", "night", "--stage", "as", "--why", "it was right");
    assertThat(ok("session", "show", "night")).contains("cut 5");
    refused("cut 99 is not in the store", "cuts", "move", "99", "--stage", "1");
    refused("is in stage 'as found' already", "cuts", "move", "1", "--stage", "1");
  }

  @Test
  void aSessionThatWasEndedIsOpenAgain() throws IOException {
    ok("session", "stop");
    refused("no session is open", "stage", "more");
    assertThat(ok("session", "reopen", "--why", "a stray tap"))
        .containsPattern(
            "opened again; it was closed at \\S{10} \\d\\d:\\d\\d:\\d\\d UTC, a stray tap");
    story.cuts(150);
    Map<String, Object> shown = story.run("session", "show", "--json").json();
    assertThat(shown).containsEntry("closed", null);
    assertThat((List<?>) shown.get("entries")).hasSize(4);
    refused("is open already", "session", "reopen");
    ok("session", "stop");
    ok("session", "start", "later", "--blade", "kitchen-1");
    refused("session 'later' is open on the same rig", "session", "reopen", "evening");
  }

  @Test
  void aSessionGetsAnotherNameAndAnotherBlade() {
    assertThat(ok("session", "rename", "1", "first evening")).contains("renamed to");
    ok("blade", "add", "pocket");
    ok("session", "correct", "first", "--blade", "poc", "--why", "the other knife");
    assertThat(ok("session", "show")).contains("session 'first evening', blade pocket");
    assertThat(ok("blade", "show", "pocket")).contains("first evening");
    assertThat(ok("blade", "show", "kitchen-1")).contains("no sessions yet");
    ok("session", "stop", "#1");
    ok("session", "start", "evening", "--blade", "pocket");
    refused("already in the journal", "session", "rename", "evening", "first evening");
  }

  @Test
  void twoBladesBecomeOne() {
    ok("session", "stop");
    refused(
        "did you mean kitchen-1? --new adds it all the same",
        "session",
        "start",
        "--blade",
        "kitchn-1");
    ok("session", "start", "second", "--blade", "kitchn-1", "--new");
    story.cuts(100, 101);
    ok("blade", "merge", "kitchn-1", "kitchen-1", "--why", "the same knife");

    assertThat(ok("blade", "list")).contains("kitchen-1").doesNotContain("kitchn-1");
    assertThat(ok("blade", "show", "kitchen-1")).contains("1 evening", "2 second", "merged into");
    assertThat(ok("blade", "show", "kitchn-1")).contains("blade 'kitchen-1'");
    assertThat(ok("cuts", "list", "--blade", "kitchen-1")).contains("101");
    ok("blade", "rename", "kitchen-1", "petty");
    assertThat(ok("session", "show", "second")).contains("blade petty");
    refused("cannot be merged into itself", "blade", "merge", "petty", "kitchn-1");
  }

  @Test
  void whatIsUnknownSuggestsWhatIsNear() {
    refused("did you mean evening?", "session", "show", "evning");
    refused("did you mean evening?", "report", "--session", "evenin g");
    refused("did you mean kitchen-1?", "blade", "show", "ktichen-1");
    refused("did you mean as found?", "burr", "as fuond");
    assertThat(ok("session", "show", "eve")).contains("#1 session 'evening'");
  }

  @Test
  void placesOffTheEdgeAndWorkBeforeAnyStageAreRefused() {
    ok("blade", "correct", "kitchen-1", "--length", "180", "--why", "measured");
    refused("place 181 mm is off the edge of blade 'kitchen-1': 0 to 180 mm", "place", "181");
    refused("off the edge", "inspect", "l", "light", "200mm", "none");
    refused("was cut before any work", "step", "ceramic", "rod");
    ok("place", "180");
    ok("step", "ceramic", "rod", "--stage", "as found");
  }

  @Test
  void aPackageOfWhatWasMendedIsTakenInElsewhere(@TempDir Path other) {
    ok("stage", "debured");
    story.cuts(131, 127);
    ok("stage", "deburred", "--rename", "debured");
    ok("stage", "deburred too", "--new");
    story.cuts(128);
    ok("stage", "deburred", "--merge", "deburred too");
    ok("session", "stop");
    ok("session", "start", "night", "--blade", "kitchn-1", "--new");
    ok("cuts", "move", "3", "--session", "night", "--stage", "1", "--why", "wrong session");
    ok("inspect", "l", "light", "none");
    ok("blade", "merge", "kitchn-1", "kitchen-1");
    Path file = other.resolve("all.zip");
    ok("export", file.toString());

    SessionStory taken = new SessionStory(other.resolve("store"));
    Ran in = taken.run("import", file.toString());
    assertThat(in.exit()).as(in.err()).isZero();
    String there = taken.run("session", "show", "evening").out();
    assertThat(there).contains("stage 2 'deburred'").doesNotContain("cut 3 ");
    assertThat(taken.run("session", "show", "night").out()).contains("blade kitchen-1");
    assertThat(taken.run("cuts", "list", "--session", "night").out()).contains("205");
  }
}
