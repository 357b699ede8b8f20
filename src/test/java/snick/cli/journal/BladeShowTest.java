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

/** A blade over two sessions that name neither rig nor calibration. */
class BladeShowTest {
  @TempDir private Path data;

  private SessionStory story;

  @BeforeEach
  void aFirstSession() {
    story = new SessionStory(data);
    ok("session", "start", "monday", "--blade", "petty");
    story.cuts(101, 103, 102, 104);
    ok("session", "stop");
    ok("session", "start", "tuesday", "--blade", "petty");
  }

  private void ok(String... command) {
    Ran ran = story.run(command);
    assertThat(ran.exit()).as(ran.err()).isZero();
  }

  private Map<?, ?> session(int number) throws IOException {
    List<?> sessions =
        (List<?>) story.run("blade", "show", "petty", "--json").json().get("sessions");
    return (Map<?, ?>) sessions.get(number - 1);
  }

  private List<?> changed() throws IOException {
    return (List<?>) session(2).get("changed");
  }

  @Test
  void nothingIsSaidToHaveChangedBeforeTheFirstCut() throws IOException {
    assertThat(changed()).isEmpty();
    story.cuts(121, 123, 122, 124);
    assertThat(changed()).isEmpty();
    assertThat(session(2).get("wear")).isNotNull();
  }

  @Test
  void cutsOfAnotherCalibrationDoNotGoOn() throws IOException {
    story.calibrate(101);
    story.cuts(121, 123, 122, 124);
    assertThat(changed().toString()).isEqualTo("[calibration]");
    assertThat(session(2).get("wear")).isNull();
  }

  /** Some cuts go on where the session before ended, the others do not. */
  @Test
  void noMoreDoCutsOfTwoCalibrations() throws IOException {
    story.cuts(121, 123);
    story.calibrate(101);
    story.cuts(122, 124);
    assertThat(changed().toString()).isEqualTo("[calibration]");
  }

  @Test
  void whatWasNotNotedIsNotToldAsNoted() throws IOException {
    assertThat(session(1).get("rig")).isNull();
    assertThat(session(1).get("calibration")).isNull();
    Map<String, Object> shown = story.run("session", "show", "monday", "--json").json();
    assertThat(shown).containsEntry("rig", null).containsEntry("calibration", null);
  }
}
