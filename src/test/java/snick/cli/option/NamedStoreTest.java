package snick.cli.option;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snick.cli.Ran;
import snick.cli.SessionStory;
import snick.cli.terminal.ExitCode;

/** What a message tells to type next acts on the store that was named. */
class NamedStoreTest {
  private static NamedStore at(String directory) {
    return new NamedStore(Optional.of(Path.of(directory)));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "see snick verify chart|see snick verify chart --data /srv/x",
        "snick run PORT, or snick demo|snick run --data /srv/x PORT, or snick demo",
        "snick blade list, or snick blade add|snick blade list --data /srv/x, or snick blade add --data"
            + " /srv/x",
        "snick calibrate, or type it|snick calibrate --data /srv/x, or type it",
        "snick calibrate show cal-1|snick calibrate show --data /srv/x cal-1",
        "list them: snick ports|list them: snick ports",
        "snick store restore BACKUP --data NEW|snick store restore BACKUP --data NEW",
        "see snick verify --help|see snick verify --help",
        "snick runs|snick runs",
      })
  void commandsThatActOnTheStoreNameIt(String message, String carried) {
    assertThat(at("/srv/x").in(message)).isEqualTo(carried);
    assertThat(at("/srv/x").in(carried)).isEqualTo(carried);
    assertThat(new NamedStore(Optional.empty()).in(message)).isEqualTo(message);
  }

  /** POSIX.1-2017, XCU 2.2.2: a quote cannot stand inside single quotes. */
  @Test
  void aDirectoryIsQuotedForTheShellWhereItMust() {
    assertThat(at("my data/$x").in("snick cuts list")).endsWith(" --data 'my data/$x'");
    assertThat(at("it's").in("snick cuts list")).endsWith(" --data 'it'\\''s'");
  }

  @Test
  void aRefusalNamesTheStoreThatWasTyped(@TempDir Path data) {
    Ran ran = Ran.command("stage", "x", "--data", data.toString());
    assertThat(ran.exit()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.err()).contains("snick session start --data " + data + " NAME --blade LABEL");
  }

  @Test
  void theNextStepNamesTheStoreThatWasTyped(@TempDir Path data) {
    SessionStory story = new SessionStory(data);
    story.cuts(90);
    assertThat(story.run("blade", "list").out())
        .contains("snick blade add --data " + data + " LABEL");
    assertThat(story.run("session", "start", "a", "--blade", "it's").out())
        .contains("snick blade correct --data " + data + " 'it'\\''s' --length MM");
    story.run("session", "stop");
    assertThat(story.run("coach").out())
        .contains("snick session start --data " + data + " --blade 'it'\\''s'");
  }
}
