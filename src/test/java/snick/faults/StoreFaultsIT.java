package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cut.Trace;
import snick.store.OlderStore;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.record.CutSelection;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.settings.Altered;
import snick.virtualrig.settings.RigSettings;

/** Stores of a newer version, damaged ones, and one that two recorders share. */
class StoreFaultsIT {
  private static final int PAGE_BYTES = 4096;
  private static final int CUTS = 40;
  private static final int WAL_TRIALS = 40;

  @TempDir Path folder;

  private Path store() {
    Path data = folder.resolve("data");
    OlderStore.make(data, CUTS);
    Store.open(data, Clock.systemUTC()).close();
    return data;
  }

  private List<String> refused(int exit, String... words) throws Exception {
    try (Running command = Running.snick(folder, words)) {
      assertThat(command.over()).as(command.lines().toString()).isEqualTo(exit);
      return command.lines();
    }
  }

  @Test
  void aStoreOfANewerVersionIsRefusedAndLeftAlone() throws Exception {
    Path data = store();
    int newer = OlderStore.newestVersion() + 1;
    OlderStore.setVersion(data, newer);
    byte[] before = Files.readAllBytes(data.resolve("snick.db"));
    for (String command : List.of("run /tmp/none --no-http", "cuts list", "blade add invented")) {
      assertThat(refused(5, (command + " --data " + data).split(" ", 0)).toString())
          .contains("schema version " + newer)
          .contains("up to " + OlderStore.newestVersion())
          .contains("use the newer program");
    }
    assertThat(Files.readAllBytes(data.resolve("snick.db"))).isEqualTo(before);
    assertThat(Files.exists(data.resolve("snick.db-wal"))).isFalse();
  }

  /** Two recorders, each with its rig, one store: every cut of both is there. */
  @Test
  void twoRecordersShareAStore() throws Exception {
    Path data = folder.resolve("data");
    try (ServedRig one = cutting("one", 1);
        ServedRig two = cutting("two", 2);
        Running first = record(one, data);
        Running second = record(two, data)) {
      first.awaitCut(12);
      second.awaitCut(12);
      first.terminate();
      second.terminate();
      List<String> announced = new ArrayList<>(first.lines());
      announced.addAll(second.lines());
      announced.removeIf(line -> !line.startsWith("{"));
      Sound.demand(
          data,
          reader -> {
            assertThat(reader.count(CutSelection.all())).isEqualTo(announced.size());
            assertThat(reader.rigs()).hasSize(2);
          });
    }
  }

  private ServedRig cutting(String name, long deviceId) throws IOException {
    RigSettings usual = RigSettings.USUAL;
    ServedRig rig =
        new VirtualRig(usual.with(Altered.withDeviceId(usual.device(), deviceId)), deviceId)
            .serve(
                folder.resolve(name),
                Pacer.of(System::nanoTime, 20),
                VirtualRig.WhenFull.DROP,
                truth -> {});
    assertThat(rig.perform(Streams.cutsForHours())).isNotDone();
    return rig;
  }

  private Running record(ServedRig rig, Path data) throws IOException {
    return Running.snick(
        folder, "run", rig.port(), "--no-http", "--json", "--data", data.toString());
  }

  /** The way out that the refusal names works, and loses what lay on the zeroed page alone. */
  @Test
  void aZeroedPageIsNamedAndSalvaged() throws Exception {
    Path data = store();
    Map<Long, Trace> all = traces(data);
    long pages = Files.size(data.resolve("snick.db")) / PAGE_BYTES;
    zero(data, pages - 3);
    List<String> check = refused(3, "store", "check", "--data", data.toString());
    assertThat(check.toString()).contains("NOT sound");
    Path saved = folder.resolve("saved");
    refused(3, "store", "salvage", data.toString(), "--data", saved.toString());
    Map<Long, Trace> kept = traces(saved);
    kept.values().removeIf(trace -> trace.size() == 0);
    assertThat(all).containsAllEntriesOf(kept);
    assertThat(kept).hasSizeGreaterThanOrEqualTo(CUTS - 5);
  }

  @Test
  void aDestroyedHeaderIsRefusedAndTheWayOutLosesNothing() throws Exception {
    Path data = store();
    Map<Long, Trace> all = traces(data);
    try (RandomAccessFile file = new RandomAccessFile(data.resolve("snick.db").toFile(), "rw")) {
      file.write(new byte[100]);
    }
    for (String command : List.of("run /tmp/none --no-http", "cuts list")) {
      assertThat(refused(5, (command + " --data " + data).split(" ", 0)).toString())
          .contains("store restore BACKUP")
          .contains("store salvage");
    }
    Path saved = folder.resolve("saved");
    refused(0, "store", "salvage", data.toString(), "--data", saved.toString());
    assertThat(traces(saved)).isEqualTo(all);
    assertThat(saved).isDirectoryNotContaining("glob:**snick-head-*");
  }

  private static void zero(Path data, long page) throws IOException {
    try (RandomAccessFile file = new RandomAccessFile(data.resolve("snick.db").toFile(), "rw")) {
      file.seek((page - 1) * PAGE_BYTES);
      file.write(new byte[PAGE_BYTES]);
    }
  }

  private static Map<Long, Trace> traces(Path data) {
    Map<Long, Trace> traces = new TreeMap<>();
    try (StoreReader reader = StoreReader.open(data)) {
      reader.forEachCut(CutSelection.all(), cut -> traces.put(cut.id(), cut.trace()));
    }
    return traces;
  }

  /** Cut off or changed anywhere, the log gives every commit before that place and none after. */
  @Test
  void aCutOrDamagedLogGivesWhatWasCommittedBeforeIt() throws Exception {
    Path data = folder.resolve("data");
    try (Store open = Store.open(data, Clock.systemUTC())) {
      OlderStore.append(open, CUTS);
      byte[] file = Files.readAllBytes(data.resolve("snick.db"));
      byte[] log = Files.readAllBytes(data.resolve("snick.db-wal"));
      assertThat(log.length).isGreaterThan(CUTS * PAGE_BYTES);
      SplittableRandom random = new SplittableRandom(20261125);
      for (int trial = 0; trial < WAL_TRIALS; trial++) {
        Path copy = Files.createDirectories(folder.resolve("copy" + trial));
        int at = 1 + random.nextInt(log.length - 1);
        byte[] damaged = Arrays.copyOf(log, trial % 2 == 0 ? at : log.length);
        if (trial % 2 == 1) {
          damaged[at] ^= (byte) (1 + random.nextInt(255));
        }
        Files.write(copy.resolve("snick.db"), file);
        Files.write(copy.resolve("snick.db-wal"), damaged);
        demandPrefix(copy);
      }
    }
  }

  private static void demandPrefix(Path copy) {
    Store.open(copy, Clock.systemUTC()).close();
    Sound.demand(
        copy,
        reader -> {
          List<Integer> numbers = new ArrayList<>();
          reader.forEachSummary(CutSelection.all(), cut -> numbers.add(cut.number()));
          for (int i = 0; i < numbers.size(); i++) {
            assertThat(numbers.get(i)).isEqualTo(i + 1);
          }
        });
  }
}
