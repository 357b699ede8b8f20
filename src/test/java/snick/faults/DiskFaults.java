package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.jr.ob.JSON;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.settings.RigSettings;

/** No room wherever something is written. */
final class DiskFaults {
  private static final double SPEED = 60;
  private static final int QUEUE_LENGTH = 256;

  private final Path folder;
  private final Room room;

  DiskFaults(Path folder, Room room) {
    this.folder = folder;
    this.room = room;
  }

  private String inRoom(String name) {
    return room.root().resolve(name).toString();
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
        folder, "run", rig.port(), "--http", "0", "--json", "--data", inRoom("data"));
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
      room.fill(run);
      assertThat(run.await("NOT STORED")).contains("nothing stored is lost");
      assertThat(health(page)).containsEntry("storing", false).containsEntry("recording", true);
      assertThat(PageEvents.get(page + "/metrics")).contains("snick_storing 0.0");
      assertThat(PageEvents.get(page + "/api/v1/state")).contains("\"storing\":false");
      Instants.await("twenty wait", () -> waiting(page) >= 20);
      room.free(run);
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
      room.fill(run);
      run.await("as many events wait as there is room for");
      assertThat(waiting(page)).isEqualTo(QUEUE_LENGTH);
      assertThat(PageEvents.get(page + "/health")).contains("\"kind\":\"queue full\"");
      long dropped = rig.sent().droppedSamples();
      Instants.await("the rig drops", () -> rig.sent().droppedSamples() > dropped + 1000);
      room.free(run);
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
        room.root().resolve("data"),
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
      room.fill(run);
      run.await("NOT STORED");
      Instants.await("some wait", () -> waiting(page) >= 5);
      run.terminate();
      assertThat(run.await("they are lost")).matches(".*stopped although \\d+ finished events.*");
    }
    room.free();
    demandNoneMissing();
  }

  void aStartWithoutRoomIsRefusedAndLeavesNothingInTheWay() throws Exception {
    try (Running run = room.startedWithout(folder, "run", "/tmp/none", "--data", inRoom("new"))) {
      assertThat(run.over()).isEqualTo(5);
      assertThat(run.lines()).hasSize(1);
      assertThat(run.lines().toString()).contains("free some space");
    }
    room.free();
    try (Running list = Running.snick(folder, "cuts", "list", "--data", inRoom("new"))) {
      assertThat(list.over()).isZero();
    }
  }

  /** Whatever gives a new file: nothing of it is left, and the message says what to do. */
  void noHalfFileIsLeft(String command, FilledStores stores) throws Exception {
    Path data = folder.resolve("data");
    stores.lay(command, data);
    String[] words = command.replace("NEW", inRoom("new")).replace("DATA", "" + data).split(" ", 0);
    try (Running refused = room.startedWithout(folder, words)) {
      assertThat(refused.over()).as(refused.lines().toString()).isEqualTo(1);
      assertThat(String.join("\n", refused.lines()))
          .matches("(?s).*(is full|No space left|File too large|quota|free some space).*")
          .contains(inRoom("new"));
    }
    assertThat(room.files()).isEmpty();
  }

  /** A capture keeps what came before, and says so. */
  void aCaptureKeepsWhatCameBefore() throws Exception {
    try (ServedRig rig = cutting();
        Running capture = Running.snick(folder, "capture", rig.port(), inRoom("a.capture"))) {
      Path file = room.root().resolve("a.capture");
      Instants.await("some bytes", () -> Files.exists(file) && Files.size(file) > 20_000);
      room.fill(capture);
      assertThat(capture.over()).isEqualTo(1);
      assertThat(capture.lines().toString()).contains("bytes before are kept");
    }
    room.free();
    try (Running analysis = Running.snick(folder, "analyze", inRoom("a.capture"), "--json")) {
      analysis.over();
      assertThat(analysis.lines().toString()).contains("\"severed\"");
    }
  }
}
