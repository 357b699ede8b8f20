package snick.cli.option;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.Needs;
import snick.cli.Ran;
import snick.cli.terminal.ExitCode;

/** What stands between a command and the store is said as it is. */
class OpenedStoreTest {
  @TempDir private Path folder;

  private static String refusal(Path data) {
    Ran ran = Ran.command("cuts", "list", "--data", data.toString());
    assertThat(ran.exit()).isEqualTo(ExitCode.UNAVAILABLE);
    return ran.err();
  }

  @Test
  void whoHasNoStoreIsToldHowToRecord() {
    assertThat(refusal(folder.resolve("none")))
        .contains("no store in " + folder.resolve("none") + " yet")
        .contains("snick run --data " + folder.resolve("none") + " PORT", "snick ports")
        .contains("a store of their own: snick demo");
    assertThat(refusal(folder)).contains("no store in " + folder + " yet");
  }

  @Test
  void whatCannotBeReadIsNotSaidToBeMissing() throws IOException {
    Path file = Files.createFile(folder.resolve("file"));
    assertThat(refusal(file))
        .contains("cannot be read: Not a directory")
        .doesNotContain("no store");
    Path loop = folder.resolve("loop");
    Files.createSymbolicLink(loop, loop);
    assertThat(refusal(loop)).contains("cannot be read: Too many levels of symbolic links");
  }

  /** Root may read everything, so that this says nothing when root runs it. */
  @Test
  void aStoreOfSomebodyElseIsSaidNotToBePermitted() throws IOException {
    Path file = Files.createFile(folder.resolve(OpenedStore.FILE));
    assertThat(file.toFile().setReadable(false)).isTrue();
    Needs.machine(
        !Files.isReadable(file),
        "root reads everything",
        "a store that may not be read is said so");
    assertThat(refusal(folder)).contains("cannot be read: you have no permission");
  }
}
