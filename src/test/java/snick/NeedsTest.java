package snick;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.opentest4j.TestAbortedException;

/** A test that is skipped says what is missing and what it leaves unproved. */
class NeedsTest {
  private static final Path TESTS = Path.of("src/test/java");

  @Test
  void aMachineThatCannotIsSaid() {
    assertThatThrownBy(() -> Needs.machine(false, "no moon", "tides"))
        .isInstanceOf(TestAbortedException.class)
        .hasMessage("no moon: not proved: tides");
    Needs.machine(true, "no moon", "tides");
  }

  @Test
  void noTestIsSkippedWithoutSayingSo() throws IOException {
    assertThat(filesWith("Assumptions.")).isEmpty();
  }

  private static List<Path> filesWith(String word) throws IOException {
    try (Stream<Path> files = Files.walk(TESTS)) {
      return files
          .filter(file -> file.toString().endsWith(".java"))
          .filter(file -> !file.getFileName().toString().startsWith("Needs"))
          .filter(file -> holds(file, word))
          .toList();
    }
  }

  private static boolean holds(Path file, String word) {
    try {
      return Files.readString(file).contains(word);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }
}
