package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.Needs;
import snick.store.OlderStore;
import snick.store.Store;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.settings.RigSettings;

/** Stores on file systems that are laid over others, or fail under a recorder. */
class OddDisksIT {
  private static final double SPEED = 20;
  private static final String UNPROVED = "that a store holds on an overlay and a failing disk";

  private static final String ON_THE_NETWORK = "that a store holds on a network file system";

  @TempDir Path folder;
  private Path disk;

  /** This program's own SQLite is run from elsewhere, else no disk could be unmounted. */
  @BeforeEach
  void loadSqlite() throws Exception {
    Store.open(folder.resolve("elsewhere"), Clock.systemUTC()).close();
  }

  private void mount(String... how) throws Exception {
    disk = Files.createDirectories(folder.resolve("disk"));
    String[] command = new String[how.length + 2];
    command[0] = "mount";
    System.arraycopy(how, 0, command, 1, how.length);
    command[how.length + 1] = disk.toString();
    Needs.machine(SystemProgram.does(command), "no " + how[1] + " can be mounted", UNPROVED);
  }

  @AfterEach
  void unmount() {
    if (disk != null) {
      SystemProgram.does("umount", disk.toString());
    }
  }

  private ServedRig resting() throws Exception {
    return new VirtualRig(RigSettings.USUAL, 9)
        .serve(
            folder.resolve("rig"),
            Pacer.of(System::nanoTime, SPEED),
            VirtualRig.WhenFull.DROP,
            truth -> {});
  }

  private ServedRig cutting() throws Exception {
    ServedRig rig = resting();
    assertThat(rig.perform(Streams.cutsForHours())).isNotDone();
    return rig;
  }

  private Running recording(ServedRig rig, Path data) throws Exception {
    return Running.snick(
        folder, "run", rig.port(), "--http", "0", "--json", "--data", data.toString());
  }

  /** The store lies in the lower layer: the first write gives it another file. */
  @Test
  void aStoreUnderAnOverlay() throws Exception {
    Path layers = Files.createDirectories(folder.resolve("layers"));
    Needs.machine(
        SystemProgram.does("mount", "-t", "tmpfs", "tmpfs", layers.toString()),
        "no file system in memory can be mounted",
        UNPROVED);
    try {
      for (String layer : new String[] {"lower", "upper", "work"}) {
        Files.createDirectory(layers.resolve(layer));
      }
      OlderStore.make(layers.resolve("lower/data"), 3);
      Store.open(layers.resolve("lower/data"), Clock.systemUTC()).close();
      String under = "lowerdir=%1$s/lower,upperdir=%1$s/upper,workdir=%1$s/work".formatted(layers);
      mount("-t", "overlay", "overlay", "-o", under);
      Path data = disk.resolve("data");
      try (ServedRig rig = cutting();
          Running run = recording(rig, data)) {
        run.awaitCut(5);
        run.terminate();
        assertThat(run.lines().toString()).doesNotContain("NOT STORED", "is gone");
        long announced = run.lines().stream().filter(line -> line.startsWith("{")).count();
        Sound.demand(data, reader -> {});
        assertThat(Sound.cuts(data)).isGreaterThanOrEqualTo(3 + announced);
      }
      unmount();
    } finally {
      SystemProgram.does("umount", layers.toString());
    }
  }

  /** A file server and its client on one machine; the server dies under the recorder. */
  @Test
  void aStoreOnANetworkFileSystem() throws Exception {
    Path exported = Files.createDirectories(folder.resolve("exported"));
    disk = Files.createDirectories(folder.resolve("disk"));
    int port = freePort();
    Process server = fileServer(port);
    Needs.machine(
        server != null && mounted(port, exported), "no sshfs can be mounted", ON_THE_NETWORK);
    try (ServedRig rig = cutting()) {
      Path data = disk.resolve("data");
      long announced;
      try (Running run = recording(rig, data)) {
        run.await("is on a network file system (fuse.sshfs)");
        run.awaitCut(3);
        run.kill();
        announced = run.lines().stream().filter(line -> line.startsWith("{")).count();
      }
      Sound.demand(data, reader -> {});
      assertThat(Sound.cuts(data)).isGreaterThanOrEqualTo(announced);
      try (Running run = recording(rig, data)) {
        run.awaitCut(3);
        server.descendants().forEach(ProcessHandle::destroyForcibly);
        server.destroyForcibly();
        run.await("NOT STORED");
        announced += run.lines().stream().filter(line -> line.startsWith("{")).count();
        run.kill();
      }
      unmount();
      Sound.demand(exported.resolve("data"), reader -> {});
      assertThat(Sound.cuts(exported.resolve("data"))).isGreaterThanOrEqualTo(announced);
    } finally {
      server.destroyForcibly();
    }
  }

  private static int freePort() throws IOException {
    try (ServerSocket any = new ServerSocket(0)) {
      return any.getLocalPort();
    }
  }

  /** Null where there is no such program. */
  private static Process fileServer(int port) {
    try {
      return new ProcessBuilder(
              "socat",
              "TCP-LISTEN:" + port + ",bind=127.0.0.1,fork,reuseaddr",
              "EXEC:/usr/lib/openssh/sftp-server")
          .redirectErrorStream(true)
          .redirectOutput(ProcessBuilder.Redirect.DISCARD)
          .start();
    } catch (IOException noSuchProgram) {
      return null;
    }
  }

  private boolean mounted(int port, Path exported) throws InterruptedException {
    boolean mounted = false;
    for (int attempt = 0; attempt < 20 && !mounted; attempt++) {
      Thread.sleep(100);
      mounted =
          SystemProgram.does(
              "sshfs", "-o", "directport=" + port, "127.0.0.1:" + exported, disk.toString());
    }
    return mounted;
  }

  /**
   * As a kernel does after an error: the file system becomes read-only under the recorder. It does
   * so between two cuts: of a write that it breaks off the kernel itself says now and then that it
   * is on the disk, and loses it (Linux 6.18, ext4: one in sixty, seen with {@code fdatasync}
   * alone).
   */
  @Test
  void aDiskThatBecomesReadOnlyUnderTheRecorder() throws Exception {
    Path image = folder.resolve("image");
    SystemProgram.does("truncate", "-s", "32M", image.toString());
    Needs.machine(
        SystemProgram.does("mkfs.ext4", "-q", image.toString()), "no mkfs.ext4", UNPROVED);
    mount("-o", "loop", image.toString());
    Path data = disk.resolve("data");
    long announced;
    try (ServedRig rig = resting();
        Running run = recording(rig, data)) {
      String page = PageEvents.address(run.await("the page is "));
      rig.perform(Streams.threeCuts()).join();
      run.awaitCut(3);
      SystemProgram.demand("mount", "-o", "remount,abort", disk.toString());
      assertThat(rig.perform(Streams.cutsForHours())).isNotDone();
      run.await("NOT STORED");
      assertThat(JSON.std.mapFrom(PageEvents.get(page + "/health")))
          .containsEntry("storing", false)
          .containsEntry("recording", true);
      announced = run.lines().stream().filter(line -> line.startsWith("{")).count();
      run.terminate();
      assertThat(run.await("they are lost")).contains("stopped although");
    }
    SystemProgram.demand("umount", disk.toString());
    mount("-o", "loop", image.toString());
    Sound.demand(data, reader -> {});
    assertThat(Sound.cuts(data)).isEqualTo(announced);
  }
}
