package snick.faults;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import snick.Needs;

/**
 * A disk of a few megabytes that can be filled, freed and made read-only: a file system in memory,
 * mounted for the test. Where that is not allowed the test is skipped and says so.
 */
final class SmallDisk implements Room {
  private static final int BLOCK_BYTES = 4096;
  private static final String SIZE = "size=16m";

  private final Path root;

  private SmallDisk(Path root) {
    this.root = root;
  }

  /** Mounts one in {@code folder}. */
  static SmallDisk mountedIn(Path folder) throws IOException {
    Path root = Files.createDirectories(folder);
    Needs.machine(
        SystemProgram.does("mount", "-t", "tmpfs", "-o", SIZE, "tmpfs", root.toString()),
        "a small disk cannot be mounted (root, or a container with CAP_SYS_ADMIN, can)",
        "a full and a read-only disk");
    return new SmallDisk(root);
  }

  @Override
  public Path root() {
    return root;
  }

  private Path ballast() {
    return root.resolve("ballast");
  }

  @Override
  public void fill(Running... writers) throws IOException {
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

  @Override
  public void free(Running... writers) throws IOException {
    Files.deleteIfExists(ballast());
  }

  @Override
  public Running startedWithout(Path folder, String... words) throws IOException {
    if (Files.notExists(ballast())) {
      fill();
    }
    return Running.snick(folder, words);
  }

  void readOnly() {
    SystemProgram.demand("mount", "-o", "remount,ro", root.toString());
  }

  void writable() {
    SystemProgram.demand("mount", "-o", "remount,rw", root.toString());
  }

  @Override
  public List<Path> files() throws IOException {
    return Room.super.files().stream().filter(file -> !file.equals(ballast())).toList();
  }

  @Override
  public void close() {
    SystemProgram.demand("umount", "-l", root.toString());
  }
}
