package snick.store.care;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cut.Outcome;
import snick.cut.Trace;
import snick.force.budget.Calibration;
import snick.force.budget.DerivedForce;
import snick.journal.Blade;
import snick.quantity.MeasuredForce;
import snick.store.Examples;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.database.Database;
import snick.store.database.StoreException;
import snick.store.database.Watch;
import snick.store.record.CutForce;
import snick.store.record.CutSelection;
import snick.store.record.Derivation;
import snick.store.record.NewCut;
import snick.store.record.NewResult;

class SalvageTest {
  private static final int CUTS = 60;
  private static final int PAGE_BYTES = 4096;
  private static final Calibration CALIBRATION =
      Calibration.countsPerGramForce(437.25, Examples.NOON);

  @TempDir Path temporary;
  private Path damaged;
  private Path fresh;
  private final Map<Long, Trace> traces = new TreeMap<>();

  @BeforeEach
  void fill() {
    damaged = temporary.resolve("damaged");
    fresh = temporary.resolve("fresh");
    try (Store store = Store.open(damaged, Clock.systemUTC())) {
      store.add(CALIBRATION, Optional.empty());
      store.journal().add(Blade.labelled("paring knife"));
      long recording = store.startRecording(Examples.recording());
      for (int number = 1; number <= CUTS; number++) {
        NewCut cut = NewCut.of(recording, Examples.NOON, Examples.severed(number));
        traces.put(store.append(cut), cut.cut().trace());
      }
    }
  }

  private Path file() {
    return damaged.resolve("snick.db");
  }

  private void zero(long page) throws IOException {
    try (RandomAccessFile raw = new RandomAccessFile(file().toFile(), "rw")) {
      raw.seek((page - 1) * PAGE_BYTES);
      raw.write(new byte[PAGE_BYTES]);
    }
  }

  private long pages() {
    try (Database database = Database.reader(file())) {
      return database.pragma("page_count");
    }
  }

  private long rootPage(String name) {
    try (Database database = Database.reader(file())) {
      return database
          .query("SELECT rootpage FROM sqlite_schema WHERE name = ?")
          .with(name)
          .first(row -> row.whole("rootpage"))
          .orElseThrow();
    }
  }

  private Map<Long, Trace> salvaged() {
    Map<Long, Trace> found = new TreeMap<>();
    try (StoreReader reader = StoreReader.open(fresh)) {
      assertThat(reader.verify(Watch.NONE).problems()).isEmpty();
      reader.forEachCut(CutSelection.all(), cut -> found.put(cut.id(), cut.trace()));
    }
    return found;
  }

  @Test
  void aSoundStoreIsSalvagedWhole() {
    assertThat(Store.salvage(damaged, fresh).lost()).isEmpty();
    assertThat(salvaged()).isEqualTo(traces);
    try (StoreReader reader = StoreReader.open(fresh)) {
      assertThat(reader.calibrations()).hasSize(1);
      assertThat(reader.journal().blades()).hasSize(1);
    }
  }

  @Test
  void theLostOrderOfTimeCostsNothing() throws IOException {
    zero(rootPage("cut_by_time"));
    Store.salvage(damaged, fresh);
    assertThat(salvaged()).isEqualTo(traces);
  }

  @Test
  void lostCutsLeaveTheirTraces() throws IOException {
    zero(rootPage("cut"));
    SalvageReport report = Store.salvage(damaged, fresh);
    assertThat(report.lost()).isNotEmpty();
    assertThat(salvaged()).isEqualTo(traces);
    assertSaysNothing(resultIn(fresh));
  }

  @Test
  void lostRecordingsCostNoTrace() throws IOException {
    appendInThreeRecordings();
    zero(rootPage("recording"));
    SalvageReport report = Store.salvage(damaged, fresh);
    assertThat(report.lost()).contains("67 cuts: their recording is lost");
    assertThat(salvaged()).isEqualTo(traces);
  }

  private void appendInThreeRecordings() {
    try (Store store = Store.open(damaged, Clock.systemUTC())) {
      for (int recordings = 2; recordings <= 3; recordings++) {
        long recording = store.startRecording(Examples.recording());
        for (int number : recordings == 2 ? new int[] {2, 3, 900} : new int[] {1, 2, 3, 70_000}) {
          NewCut cut = NewCut.of(recording, Examples.NOON, Examples.severed(number));
          traces.put(store.append(cut), cut.cut().trace());
        }
      }
    }
  }

  @Test
  void aLostCutWhoseTraceIsDamagedCostsNoOther() throws IOException {
    long damagedTrace = 7;
    try (Database database = Database.writer(file())) {
      database.write(
          () ->
              database
                  .query("UPDATE cut_trace SET crc32c = crc32c + 1 WHERE cut = ?")
                  .with(damagedTrace)
                  .change());
    }
    zero(rootPage("cut"));
    SalvageReport report = Store.salvage(damaged, fresh);
    assertThat(report.lost()).anyMatch(line -> line.startsWith("cut 7: it is lost, and its trace"));
    traces.remove(damagedTrace);
    assertThat(salvaged()).isEqualTo(traces);
  }

  /** A force of a result that is lost says nothing of the one put in its place. */
  @Test
  void lostCutsTakeTheForcesOfTheirResultsAlong() throws IOException {
    MeasuredForce force = MeasuredForce.ofNewtons(1, 0.1);
    CutForce first =
        new CutForce(new DerivedForce.Inside(CALIBRATION.id(), force, 12), force.value());
    try (Store store = Store.open(damaged, Clock.systemUTC())) {
      store.addResults(
          traces.keySet().stream()
              .map(id -> new NewResult(id, Optional.empty(), Optional.of(first)))
              .toList());
    }
    zero(rootPage("cut"));
    Store.salvage(damaged, fresh);
    assertThat(salvaged()).isEqualTo(traces);
    try (StoreReader reader = StoreReader.open(fresh)) {
      assertThat(reader.latest(CutSelection.all(), CUTS))
          .allSatisfy(cut -> assertThat(cut.force()).isEmpty());
    }
  }

  @Test
  void lostLaterResultsLeaveTheFirst() throws IOException {
    Derivation first = resultIn(damaged);
    try (Store store = Store.open(damaged, Clock.systemUTC())) {
      store.addResults(
          traces.keySet().stream()
              .map(id -> new NewResult(id, Optional.of(Examples.released(1)), Optional.empty()))
              .toList());
    }
    assertThat(resultIn(damaged).figures().outcome()).isEqualTo(Outcome.RELEASED);
    zero(rootPage("cut_result"));
    Store.salvage(damaged, fresh);
    assertThat(salvaged()).isEqualTo(traces);
    assertThat(resultIn(fresh)).isEqualTo(first);
  }

  private static Derivation resultIn(Path directory) {
    try (StoreReader reader = StoreReader.open(directory)) {
      return reader.latest(CutSelection.all(), 1).get(0).result();
    }
  }

  private static void assertSaysNothing(Derivation result) {
    assertThat(result.figures().outcome()).isEqualTo(Outcome.DISTURBED);
    assertThat(result.detectorVersion()).isZero();
  }

  /** Whichever page is zeroed: the store is sound again, and holds all traces but that page's. */
  @Test
  void anyOnePageCostsItsOwnRowsAlone() throws IOException {
    byte[] sound = java.nio.file.Files.readAllBytes(file());
    List<Long> refused = new ArrayList<>();
    long pages = pages();
    for (long page = 2; page <= pages; page += 7) {
      java.nio.file.Files.write(file(), sound);
      zero(page);
      fresh = temporary.resolve("fresh" + page);
      try {
        Store.salvage(damaged, fresh);
        Map<Long, Trace> kept = salvaged();
        kept.values().removeIf(trace -> trace.size() == 0);
        assertThat(traces).containsAllEntriesOf(kept);
        assertThat(kept).as("page " + page).hasSizeGreaterThanOrEqualTo(leastKept(page));
      } catch (StoreException e) {
        assertThat(e.trouble()).isEqualTo(StoreException.Trouble.DAMAGED);
        refused.add(page);
      }
    }
    assertThat(refused).as("pages of the schema").hasSizeLessThan(3);
  }

  /** A root page of traces costs all of them; another page holds five at most. */
  private int leastKept(long page) {
    return page == rootPage("cut_trace") ? 0 : CUTS - 5;
  }

  @Test
  void aStoreIsNotSalvagedOverAnother() {
    assertThatThrownBy(() -> Store.salvage(damaged, damaged))
        .isInstanceOf(StoreException.class)
        .hasMessageContaining("already there");
  }
}
