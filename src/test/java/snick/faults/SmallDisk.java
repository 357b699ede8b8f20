package snick.faults;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/**
 * A disk of a few megabytes that can be filled, freed and made read-only: a file system in memory,
 * mounted for the test. Where that is not allowed the test is skipped and says so.
 */
final class SmallDisk implements AutoCloseable {
  private static final int BLOCK_BYTES = 4096;
  private static final long PATIENCE_SECONDS = 10;

  private final Path root;

  private SmallDisk(Path root) {
    this.root = root;
  }

  /** Mounts one of {@code megabytes} in {@code folder}. */
  static SmallDisk mountedIn(Path folder, int megabytes) throws IOException {
    Path root = Files.createDirectories(folder);
    boolean mounted =
        system("mount", "-t", "tmpfs", "-o", "size=" + megabytes + "m", "tmpfs", root.toString());
    assumeTrue(
        mounted,
        "a small disk cannot be mounted here: run the tests as root, or in a container with"
            + " CAP_SYS_ADMIN, to try a full and a read-only disk");
    return new SmallDisk(root);
  }

  private static boolean system(String... command) {
    try {
      Process process =
          new ProcessBuilder(command)
              .redirectErrorStream(true)
              .redirectOutput(ProcessBuilder.Redirect.DISCARD)
              .start();
      return process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS) && process.exitValue() == 0;
    } catch (IOException noSuchProgram) {
      return false;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }

  Path root() {
    return root;
  }

  private Path ballast() {
    return root.resolve("ballast");
  }

  /** Leaves no byte free. */
  void fill() throws IOException {
    try (OutputStream out = Files.newOutputStream(ballast())) {
      while (true) {
        out.write(new byte[BLOCK_BYTES]);
      }
    } catch (IOException full) {
      if (Files.getFileStore(root).getUsableSpace() > 0) {
        throw full;
      }
    }
  }

  /** Takes away what {@link #fill} put there. */
  void free() throws IOException {
    Files.delete(ballast());
  }

  void readOnly() {
    require(system("mount", "-o", "remount,ro", root.toString()), "remount read-only");
  }

  void writable() {
    require(system("mount", "-o", "remount,rw", root.toString()), "remount writable");
  }

  private void require(boolean done, String what) {
    if (!done) {
      throw new AssertionError("could not " + what + " " + root);
    }
  }

  /** All files but the ballast. */
  List<Path> files() throws IOException {
    try (Stream<Path> all = Files.walk(root)) {
      return all.filter(Files::isRegularFile).filter(f -> !f.equals(ballast())).sorted().toList();
    }
  }

  @Override
  public void close() {
    require(system("umount", "-l", root.toString()), "unmount");
  }
}
