package snick.cli.terminal;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FileReasonTest {
  @Test
  void aMissingFileIsSaidToBeMissing(@TempDir Path folder) {
    IOException e =
        Assertions.catchThrowableOfType(
            IOException.class, () -> Files.readAllBytes(folder.resolve("none")));
    assertThat(FileReason.of(e)).isEqualTo("there is no such file");
  }

  @Test
  void whatTheSystemSaysIsKept() {
    assertThat(FileReason.of(new FileSystemException("a", null, "Is a directory")))
        .isEqualTo("Is a directory");
    assertThat(FileReason.of(new IOException("Input/output error")))
        .isEqualTo("Input/output error");
  }

  @Test
  void namesAloneAreNoReasons() {
    assertThat(FileReason.of(new AccessDeniedException("/a"))).doesNotContain("/a");
    assertThat(FileReason.of(new NoSuchFileException("/a"))).doesNotContain("/a");
  }
}
