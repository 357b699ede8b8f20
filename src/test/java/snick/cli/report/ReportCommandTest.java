package snick.cli.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cli.Ran;
import snick.cli.SessionStory;
import snick.cli.terminal.ExitCode;

/** Which session is reported, and that it is said; blades and forces are invented. */
class ReportCommandTest {
  @TempDir private Path data;
  private SessionStory story;

  @BeforeEach
  void twoEvenings() {
    story = new SessionStory(data);
    for (String name : new String[] {"monday", "tuesday"}) {
      story.run("session", "start", name, "--blade", "kitchen-1");
      story.run("cuts", "enter", "212,198,205");
      story.run("session", "stop");
    }
  }

  @Test
  void theLatestIsTakenAndNamedIfNoneIs() {
    Ran printed = story.run("report", "--markdown");
    assertThat(printed.exit()).isZero();
    assertThat(printed.out()).contains("tuesday").doesNotContain("monday");
    assertThat(printed.err()).isEqualToIgnoringNewLines("snick: session 'tuesday'");
    Ran written = story.run("report", "-o", data.resolve("latest.html").toString());
    assertThat(written.out()).contains("latest.html: session tuesday.");
    assertThat(written.err()).isEmpty();
  }

  @Test
  void aNamedOneIsTakenAsNamed() {
    Ran printed = story.run("report", "--session", "mon", "--markdown");
    assertThat(printed.out()).contains("monday").doesNotContain("tuesday");
    assertThat(printed.err()).contains("session 'monday'");
    assertThat(story.run("report", "--session", "sunday").exit()).isEqualTo(ExitCode.BAD_INPUT);
  }
}
