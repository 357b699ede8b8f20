package snick.store.database;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.store.Store;
import snick.store.StoreReader;

/** What a killed program left half made is removed; what a living one makes is not. */
class PartialFileTest {
  @TempDir Path directory;

  /** Makes one in the directory named, says so, and waits to be killed. */
  static final class Maker {
    private Maker() {}

    public static void main(String[] args) throws IOException {
      try (PartialFile file = PartialFile.in(Path.of(args[0]))) {
        Files.writeString(file.path(), "half");
        Files.writeString(file.path().resolveSibling(file.path().getFileName() + "-wal"), "log");
        System.out.println(file.path());
        System.in.read();
      }
    }
  }

  /** Writes a file of its own in the directory named, over and over. */
  static final class Rewriter {
    private static final int TIMES = 1500;

    private Rewriter() {}

    public static void main(String[] args) throws IOException {
      rewrite(Path.of(args[0]).resolve("its"));
    }

    static void rewrite(Path file) throws IOException {
      for (int i = 0; i < TIMES; i++) {
        StoreFile.rewrite(file, new byte[] {1});
      }
    }
  }

  @Test
  void twoProgramsThatWriteInOneFolderDoNotHinderEachOther() throws Exception {
    Process other = started(Rewriter.class);
    Rewriter.rewrite(directory.resolve("ours"));
    assertThat(other.waitFor()).isZero();
    assertThat(directory.toFile().list()).containsExactlyInAnyOrder("its", "ours");
  }

  @Test
  void aLinkToAFileThatIsNotThereYetStaysOne() throws IOException {
    Path link = Files.createSymbolicLink(directory.resolve("link"), Path.of("target"));
    StoreFile.rewrite(link, new byte[] {1});
    assertThat(link).isSymbolicLink();
    assertThat(directory.resolve("target")).hasBinaryContent(new byte[] {1});
  }

  private Process maker() throws IOException {
    return started(Maker.class);
  }

  private Process started(Class<?> program) throws IOException {
    return new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-XX:TieredStopAtLevel=1",
            "-cp",
            System.getProperty("java.class.path"),
            program.getName(),
            directory.toString())
        .redirectError(ProcessBuilder.Redirect.INHERIT)
        .start();
  }

  @Test
  void oneIsLeftAloneWhileItsMakerLivesAndRemovedOnceItIsKilled() throws Exception {
    Process maker = maker();
    try (BufferedReader out = maker.inputReader(StandardCharsets.UTF_8)) {
      Path made = Path.of(out.readLine());
      PartialFile.removeLeftOver(directory);
      assertThat(made).hasContent("half");
      maker.destroyForcibly().waitFor();
      assertThat(made).hasContent("half");
      PartialFile.removeLeftOver(directory);
      assertThat(directory).isEmptyDirectory();
    } finally {
      maker.destroyForcibly();
    }
  }

  @Test
  void theNextStartAndTheNextBackupRemoveIt() throws Exception {
    Store.open(directory.resolve("store"), Clock.systemUTC()).close();
    leave(directory.resolve("store"));
    Store.open(directory.resolve("store"), Clock.systemUTC()).close();
    assertThat(directory.resolve("store")).isDirectoryNotContaining("glob:**partial*");
    leave(directory);
    StoreReader.backUp(directory.resolve("store"), directory.resolve("copy.db"), Watch.NONE);
    assertThat(directory).isDirectoryNotContaining("glob:**partial*");
  }

  /** As a program of another number left it. */
  private static void leave(Path where) throws IOException {
    Files.writeString(where.resolve("snick-0-1.partial-lock"), "");
    Files.writeString(where.resolve("snick-0-1.partial"), "half");
  }

  @Test
  void ownOnesAndFilesWithoutLockAreLeftAlone() throws IOException {
    Path other = Files.writeString(directory.resolve("snick-mine.partial"), "mine");
    try (PartialFile own = PartialFile.in(directory)) {
      PartialFile.removeLeftOver(directory);
      assertThat(own.path()).exists();
    }
    assertThat(other).hasContent("mine");
    assertThat(directory).isDirectoryNotContaining("glob:**partial-lock");
  }

  /** A link under such a name leads nowhere: what it points to is not touched. */
  @Test
  void aLinkIsNotFollowed() throws IOException {
    Path target = Files.writeString(directory.resolve("mine"), "mine");
    Path link = directory.resolve("snick-0-2.partial-lock");
    Files.createSymbolicLink(link, target);
    PartialFile.removeLeftOver(directory);
    assertThat(target).hasContent("mine");
  }
}
