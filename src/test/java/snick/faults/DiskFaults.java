package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import snick.store.CutSelection;
import snick.store.CutSummary;
import snick.store.OlderStore;
import snick.store.Store;
import snick.virtualrig.Pacer;
import snick.virtualrig.RigSettings;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;

/** No space, or a read-only disk, wherever something is written. */
final class DiskFaults implements AutoCloseable {
  private static final double SPEED = 60;
  private static final int DISK_MEGABYTES = 16;
  private static final int QUEUE_LENGTH = 256;

  private final Path folder;
  private final SmallDisk disk;

  DiskFaults(Path folder) throws IOException {
    this.folder = folder;
    disk = SmallDisk.mountedIn(folder.resolve("disk"), DISK_MEGABYTES);
  }

  @Override
  public void close() {
    disk.close();
  }

  private String onDisk(String name) {
    return disk.root().resolve(name).toString();
  }

  private ServedRig cutting() throws Exception {
    ServedRig rig =
        new VirtualRig(RigSettings.USUAL, 9)
            .serve(
                folder.resolve("rig"),
                Pacer.of(System::nanoTime, SPEED),
                VirtualRig.WhenFull.DROP,
                truth -> {});
    assertThat(rig.perform(Streams.cutsForHours())).isNotDone();
    return rig;
  }

  private Running recording(ServedRig rig) throws Exception {
    return Running.snick(
        folder, "run", rig.port(), "--http", "0", "--json", "--data", onDisk("data"));
  }

  private static Map<String, Object> health(String page) throws Exception {
    return JSON.std.mapFrom(PageEvents.get(page + "/health"));
  }

  private static long waiting(String page) throws Exception {
    return ((Number) health(page).get("waiting")).longValue();
  }

  /** Recording goes on, the person is told everywhere, and what waited is stored. */
  void whatWaitsIsStoredWhenSpaceReturns() throws Exception {
    try (ServedRig rig = cutting();
        Running run = recording(rig)) {
      String page = PageEvents.address(run.await("the page is "));
      run.awaitCut(1);
      disk.fill();
      assertThat(run.await("NOT STORED")).contains("free some space");
      assertThat(health(page)).containsEntry("storing", false).containsEntry("recording", true);
      assertThat(PageEvents.get(page + "/metrics")).contains("snick_storing 0.0");
      assertThat(PageEvents.get(page + "/api/v1/state")).contains("\"storing\":false");
      Instants.await("twenty wait", () -> waiting(page) >= 20);
      disk.free();
      run.await("storing again; nothing was lost");
      Instants.await("none waits", () -> waiting(page) == 0);
      assertThat(health(page)).containsEntry("storing", true);
      assertThat(run.terminate()).isEqualTo(143);
    }
    demandNoneMissing();
  }

  /** A long time without space: the queue is full, reading waits, and that is said and counted. */
  void memoryIsBoundedAndWhatIsDroppedIsCounted() throws Exception {
    try (ServedRig rig = cutting();
        Running run = recording(rig)) {
      String page = PageEvents.address(run.await("the page is "));
      run.awaitCut(1);
      disk.fill();
      run.await("as many events wait as there is room for");
      assertThat(waiting(page)).isEqualTo(QUEUE_LENGTH);
      assertThat(PageEvents.get(page + "/health")).contains("\"kind\":\"queue full\"");
      long dropped = rig.sent().droppedSamples();
      Instants.await("the rig drops", () -> rig.sent().droppedSamples() > dropped + 1000);
      disk.free();
      run.await("storing again");
      Instants.await("the loss shows", () -> lost(page) > 0);
      assertThat(health(page)).containsEntry("losing", true);
      run.terminate();
    }
    demandNoneMissing();
  }

  private static long lost(String page) throws Exception {
    Map<?, ?> rig = (Map<?, ?>) ((List<?>) health(page).get("rigs")).get(0);
    return ((Number) rig.get("lost_samples")).longValue();
  }

  /** Each cut that was found has the next number: none is missing between. */
  private void demandNoneMissing() {
    Sound.demand(
        disk.root().resolve("data"),
        reader -> {
          List<Integer> numbers = new ArrayList<>();
          reader.forEachSummary(CutSelection.all(), cut -> numbers.add(number(cut)));
          for (int i = 0; i < numbers.size(); i++) {
            assertThat(numbers.get(i)).isEqualTo(i + 1);
          }
        });
  }

  private static int number(CutSummary cut) {
    return cut.number();
  }

  void whoStopsItAllTheSameIsToldWhatIsLost() throws Exception {
    try (ServedRig rig = cutting();
        Running run = recording(rig)) {
      String page = PageEvents.address(run.await("the page is "));
      run.awaitCut(1);
      disk.fill();
      run.await("NOT STORED");
      Instants.await("some wait", () -> waiting(page) >= 5);
      run.terminate();
      assertThat(run.await("they are lost")).matches(".*stopped although \\d+ finished events.*");
    }
    disk.free();
    demandNoneMissing();
  }

  void aStartWithoutSpaceIsRefusedAndLeavesNothingInTheWay() throws Exception {
    disk.fill();
    try (Running run = Running.snick(folder, "run", "/tmp/none", "--data", onDisk("new"))) {
      assertThat(run.over()).isEqualTo(5);
      assertThat(run.lines().toString()).contains("free some space");
    }
    disk.free();
    try (Running list = Running.snick(folder, "cuts", "list", "--data", onDisk("new"))) {
      assertThat(list.over()).isZero();
    }
  }

  private Path filledStore() {
    Path data = folder.resolve("data");
    OlderStore.make(data, OlderStore.newestVersion(), 3);
    return data;
  }

  /** Whatever gives a new file: nothing of it is left, and the message says what to do. */
  void noHalfFileIsLeft(String command) throws Exception {
    Path data = filledStore();
    disk.fill();
    demandRefused(command, data, "(?s).*(is full|No space left).*");
    assertThat(disk.files()).isEmpty();
    disk.free();
    disk.readOnly();
    demandRefused(command, data, "(?s).*(Read-only file system).*");
    assertThat(disk.files()).isEmpty();
  }

  private void demandRefused(String command, Path data, String because) throws Exception {
    String[] words = command.replace("NEW", onDisk("new")).replace("DATA", "" + data).split(" ", 0);
    try (Running refused = Running.snick(folder, words)) {
      assertThat(refused.over()).as(refused.lines().toString()).isEqualTo(1);
      assertThat(String.join("\n", refused.lines())).matches(because).contains(onDisk("new"));
    }
  }

  /** Whatever writes into the store: nothing of it is stored, and the rest stays readable. */
  void aReadOnlyStoreRefusesAndStaysReadable() throws Exception {
    Path data = disk.root().resolve("data");
    OlderStore.make(data, OlderStore.newestVersion(), 3);
    Store.open(data, Clock.systemUTC()).close();
    disk.readOnly();
    for (String command :
        List.of(
            "blade add invented",
            "calibrate line --device 51ab --zero 0 --span 437 --span-gf 1 --u-span 1",
            "run /tmp/none --no-http")) {
      try (Running refused = Running.snick(folder, (command + " --data " + data).split(" ", 0))) {
        assertThat(refused.over()).as(command).isIn(1, 5);
        assertThat(refused.lines().toString())
            .contains("make the file and its directory writable")
            .doesNotContain("recording to");
      }
    }
    try (Running list = Running.snick(folder, "cuts", "list", "--json", "--data", "" + data)) {
      assertThat(list.over()).isZero();
      assertThat(list.lines()).hasSize(3);
    }
    disk.writable();
    Sound.demand(data, reader -> assertThat(reader.journal().blades()).isEmpty());
  }

  /** A capture keeps what came before, and says so. */
  void aCaptureKeepsWhatCameBefore() throws Exception {
    try (ServedRig rig = cutting();
        Running capture = Running.snick(folder, "capture", rig.port(), onDisk("a.capture"))) {
      Path file = disk.root().resolve("a.capture");
      Instants.await("some bytes", () -> Files.exists(file) && Files.size(file) > 20_000);
      disk.fill();
      assertThat(capture.over()).isEqualTo(1);
      assertThat(capture.lines().toString()).contains("bytes before are kept");
    }
    disk.free();
    try (Running analysis = Running.snick(folder, "analyze", onDisk("a.capture"), "--json")) {
      analysis.over();
      assertThat(analysis.lines().toString()).contains("\"severed\"");
    }
  }
}
