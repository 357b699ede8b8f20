package snick.dist;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * This machine's system, to be changed at will: an overlay in a mount namespace of its own
 * (overlayfs of the Linux kernel, unshare(1)). What is written goes into memory, and is gone when
 * this is closed; the machine itself is never touched.
 */
final class ScratchSystem implements AutoCloseable {
  private static final String MOUNT =
      """
      set -e
      mount -t tmpfs -o mode=0755 tmpfs "$0"
      mkdir "$0/upper" "$0/work" "$0/root"
      mount -t overlay overlay -o "lowerdir=/,upperdir=$0/upper,workdir=$0/work" "$0/root"
      mount --rbind /dev "$0/root/dev"
      mount -t proc proc "$0/root/proc"
      mount -t sysfs -o ro sysfs "$0/root/sys"
      mount -t tmpfs -o mode=1777 tmpfs "$0/root/tmp"
      mount -t tmpfs -o mode=0755 tmpfs "$0/root/run"
      echo mounted
      exec sleep infinity
      """;

  private final Process holder;
  private final Path root;

  private ScratchSystem(Process holder, Path root) {
    this.holder = holder;
    this.root = root;
  }

  /** Makes one, its mounts below {@code folder}; empty if this machine does not let it be made. */
  static Optional<ScratchSystem> make(Path folder) throws IOException {
    Process holder =
        new ProcessBuilder("unshare", "--mount", "sh", "-c", MOUNT, folder.toString())
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    BufferedReader out =
        new BufferedReader(new InputStreamReader(holder.getInputStream(), StandardCharsets.UTF_8));
    if (!"mounted".equals(out.readLine())) {
      holder.destroyForcibly();
      return Optional.empty();
    }
    return Optional.of(new ScratchSystem(holder, folder.resolve("root")));
  }

  /** Its root folder, by the name that the kernel gives to it outside. */
  Path root() {
    return root;
  }

  /** The command that runs {@code command} in it. */
  List<String> inside(String... command) {
    List<String> whole =
        new ArrayList<>(
            List.of("nsenter", "--mount", "--target", Long.toString(holder.pid()), "chroot"));
    whole.add(root.toString());
    whole.addAll(List.of(command));
    return whole;
  }

  /** Runs a program in it. */
  Program.Done run(String... command) throws IOException, InterruptedException {
    return Program.run(inside(command));
  }

  /** Runs a line of the shell in it. */
  Program.Done shell(String line) throws IOException, InterruptedException {
    return run("sh", "-c", line);
  }

  /** Where a file of it is seen from outside. */
  Path seen(String file) {
    return Path.of("/proc", Long.toString(holder.pid()), "root", root.toString(), file);
  }

  /** Copies a file of this machine into it. */
  void copyIn(Path file, String name) throws IOException {
    Files.copy(file, seen(name));
  }

  @Override
  public void close() {
    holder.destroyForcibly();
    holder.onExit().join();
  }
}
