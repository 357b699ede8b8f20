package snick.dist;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

/**
 * The running machine with an overlay on its files and a systemd of its own: process 1 of its own
 * namespaces, in control groups of its own. Nothing of it is left when it is closed.
 */
final class BootedSystem implements AutoCloseable {
  private static final long BOOT_SECONDS = 30;
  private static final long LOOK_NANOS = TimeUnit.MILLISECONDS.toNanos(200);
  private static final int MOST_LOOKS = 50;

  /** $0: folder; $1: name of the control groups. */
  private static final String BOOT =
      """
      set -e
      where=/sys/fs/cgroup/*
      [ ! -e /sys/fs/cgroup/cgroup.controllers ] || where=/sys/fs/cgroup
      trees=
      for tree in $where; do
        [ ! -L "$tree" ] && [ -e "$tree/cgroup.procs" ] || continue
        mkdir "$tree/$1"
        for given in cpus mems; do
          [ ! -e "$tree/cpuset.$given" ] || cat "$tree/cpuset.$given" > "$tree/$1/cpuset.$given"
        done
        echo $$ > "$tree/$1/cgroup.procs"
        trees="$trees $tree"
      done
      exec unshare --mount --pid --fork --cgroup --net --ipc --uts --kill-child \
        sh -c "$2" "$0" "$trees"
      """;

  /** $0: folder; $1: the trees of control groups. */
  private static final String FIRST_PROCESS =
      """
      set -e
      root=$0/root
      mount --make-rprivate /
      mount -t tmpfs -o mode=0755 tmpfs "$0"
      mkdir "$0/upper" "$0/work" "$root"
      mount -t overlay overlay -o "lowerdir=/,upperdir=$0/upper,workdir=$0/work" "$root"
      mount -t proc proc "$root/proc"
      mount -t sysfs -o ro sysfs "$root/sys"
      for place in dev run sys/fs/cgroup; do
        mount -t tmpfs -o mode=0755 tmpfs "$root/$place"
      done
      mount -t tmpfs -o mode=1777 tmpfs "$root/tmp"
      mkdir "$root/dev/pts" "$root/dev/shm"
      for device in null zero full random urandom tty; do
        touch "$root/dev/$device"
        mount --bind "/dev/$device" "$root/dev/$device"
      done
      mount -t devpts -o newinstance,ptmxmode=0666,mode=0620,gid=5 devpts "$root/dev/pts"
      ln -s pts/ptmx "$root/dev/ptmx"
      mount -t tmpfs -o mode=1777 tmpfs "$root/dev/shm"
      for tree in $1; do
        place=$root$tree
        name=${tree##*/}
        mkdir -p "$place"
        case $name in
          cgroup|unified) mount -t cgroup2 cgroup2 "$place" ;;
          systemd) mount -t cgroup -o none,name=systemd cgroup "$place" ;;
          *) mount -t cgroup -o "$name" cgroup "$place" ;;
        esac
      done
      {
        echo '[Unit]'
        echo 'Description=A service under test'
        echo 'Requires=systemd-journald.service'
        echo 'AllowIsolate=yes'
      } > "$root/etc/systemd/system/live.target"
      cd "$root"
      mkdir old
      pivot_root . old
      umount -l /old
      exec env -i container=other PATH=/usr/sbin:/usr/bin:/sbin:/bin \
        /lib/systemd/systemd --system --unit=live.target --log-target=journal --show-status=no
      """;

  private final Process holder;
  private final String groups;

  private BootedSystem(Process holder, String groups) {
    this.holder = holder;
    this.groups = groups;
  }

  /** Boots one, its mounts below {@code folder}; empty if this machine does not let it. */
  static Optional<BootedSystem> boot(Path folder) throws IOException, InterruptedException {
    String groups = "snick-live-" + ProcessHandle.current().pid();
    Process holder =
        new ProcessBuilder("sh", "-c", BOOT, folder.toString(), groups, FIRST_PROCESS)
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    BootedSystem system = new BootedSystem(holder, groups);
    if (system.comesUp()) {
      return Optional.of(system);
    }
    system.close();
    return Optional.empty();
  }

  private boolean comesUp() throws IOException, InterruptedException {
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(BOOT_SECONDS);
    while (holder.isAlive() && System.nanoTime() < end) {
      // while it boots, a child may also be a command of the script that is over at once
      Optional<ProcessHandle> child = holder.children().findFirst();
      if (child.isPresent()
          && run(child.get().pid(), "systemctl", "is-active", "live.target").exit() == 0) {
        return true;
      }
      LockSupport.parkNanos(LOOK_NANOS);
    }
    return false;
  }

  private long firstProcess() {
    return holder.children().findFirst().orElseThrow().pid();
  }

  /** Copies a file of this machine into it. */
  void copyIn(Path file, String name) throws IOException {
    Files.copy(file, Path.of("/proc", Long.toString(firstProcess()), "root", name));
  }

  /** Runs a program in it. */
  Program.Done run(String... command) throws IOException, InterruptedException {
    return run(firstProcess(), command);
  }

  private static Program.Done run(long firstProcess, String... command)
      throws IOException, InterruptedException {
    List<String> whole =
        new ArrayList<>(
            List.of("nsenter", "--target", Long.toString(firstProcess), "--mount", "--pid"));
    whole.addAll(List.of("--net", "--ipc", "--uts", "--cgroup", "--root", "--wd"));
    whole.addAll(List.of("env", "-i", "PATH=/usr/sbin:/usr/bin:/sbin:/bin"));
    whole.addAll(List.of(command));
    return Program.run(whole);
  }

  /** Runs a line of the shell in it. */
  Program.Done shell(String line) throws IOException, InterruptedException {
    return run("sh", "-c", line);
  }

  /** What systemd says of the service. */
  String service(String property) throws IOException, InterruptedException {
    return run("systemctl", "show", "--value", "--property", property, "snick").out().strip();
  }

  @Override
  public void close() {
    holder.destroyForcibly();
    holder.onExit().join();
    for (int i = 0; i < MOST_LOOKS && !groupsAreGone(); i++) {
      LockSupport.parkNanos(LOOK_NANOS);
    }
  }

  /** They can be removed once their last process is. */
  private boolean groupsAreGone() {
    String empty =
        "find /sys/fs/cgroup -depth -path '*/"
            + groups
            + "*' -type d -exec rmdir {} +"
            + " && test -z \"$(find /sys/fs/cgroup -name "
            + groups
            + ")\"";
    try {
      return Program.run(List.of("sh", "-c", empty)).exit() == 0;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return true;
    }
  }
}
