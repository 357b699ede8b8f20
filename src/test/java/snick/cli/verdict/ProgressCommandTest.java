package snick.cli.verdict;

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

class ProgressCommandTest {
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

  private void twoStages(String session) {
    ok("session", "start", session, "--blade", "petty");
    story.cuts(121, 123, 122, 124);
    ok("stage", "stropped");
    story.cuts(101, 103, 102, 104);
    ok("session", "stop");
  }

  /** Lines to type, without the store, which has a long name in a test. */
  private List<String> next(String... command) {
    return ok(command)
        .replace(" --data " + data, "")
        .lines()
        .filter(line -> line.contains(": snick "))
        .toList();
  }

  @Test
  void whatToTypeNextIsOfTheSessionThatWasTyped() {
    twoStages("evening");
    twoStages("later");
    assertThat(next("progress", "--session", "evening"))
        .containsExactly(
            "Say what is too small to matter: snick progress --margin GF --session evening",
            "To keep it for all blades: snick settings margin GF",
            "What stands behind one step: snick compare STAGE STAGE --session evening")
        .allMatch(line -> line.length() <= 80);
    assertThat(next("progress", "--session", "evening", "--margin", "6"))
        .containsExactly(
            "What stands behind one step: snick compare STAGE STAGE --session evening");
    assertThat(next("progress"))
        .contains("Say what is too small to matter: snick progress --margin GF");
  }

  /** With a second rig in the store only the cuts say whose study it is. */
  @Test
  void aSessionThatNamesNoRigIsJudgedByTheStudyOfTheRigOfItsCuts() throws IOException {
    twoStages("monday");
    twoStages("tuesday");
    ok("study", "repeatability", "monday", "tuesday", "--keep");
    ok("session", "start", "elsewhere", "--blade", "petty");
    ok("cuts", "enter", "90,92");
    ok("session", "stop");
    assertThat(scatterRatio("monday")).isNotNull();
    assertThat(scatterRatio("elsewhere")).isNull();
  }

  private Object scatterRatio(String session) throws IOException {
    List<?> stages =
        (List<?>) story.run("progress", "--session", session, "--json").json().get("stages");
    return ((Map<?, ?>) stages.get(0)).get("scatter_ratio");
  }
}
