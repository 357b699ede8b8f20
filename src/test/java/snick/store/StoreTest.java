package snick.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cut.Cut;
import snick.store.database.StoreException;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.store.record.HostClock;
import snick.store.record.NewCut;
import snick.store.record.Recording;
import snick.store.record.Rig;
import snick.store.record.StoredCut;
import snick.store.record.StoredRecording;

class StoreTest {
  private static final Instant NOW = Instant.parse("2026-05-04T13:00:00Z");
  private static final Clock CLOCK = Clock.fixed(NOW, ZoneOffset.UTC);

  @TempDir Path temporary;
  private Path directory;

  @BeforeEach
  void place() {
    directory = temporary.resolve("data").resolve("snick");
  }

  @Test
  void aCutComesBackAsItWasAppended() {
    Cut cut = Examples.severed(1);
    long id;
    try (Store store = Store.open(directory, CLOCK)) {
      id = store.append(NewCut.of(store.startRecording(Examples.recording()), Examples.NOON, cut));
    }
    try (StoreReader reader = StoreReader.open(directory)) {
      StoredCut stored = reader.cut(id).orElseThrow();
      assertThat(stored.cut()).isEqualTo(cut);
      assertThat(stored.summary().occurredAt()).isEqualTo(Examples.NOON);
      assertThat(stored.summary().samples()).isEqualTo(600);
      assertThat(stored.summary().result().detectorVersion()).isEqualTo(Cut.DETECTOR_VERSION);
      assertThat(stored.summary().result().createdAt()).isEqualTo(NOW);
      assertThat(reader.results(id)).containsExactly(stored.summary().result());
    }
  }

  @Test
  void anEventWithoutBreakOrPeakComesBackToo() {
    Cut cut = Examples.released(3);
    try (Store store = Store.open(directory, CLOCK);
        StoreReader reader = StoreReader.open(directory)) {
      long id =
          store.append(NewCut.of(store.startRecording(Examples.recording()), Examples.NOON, cut));
      assertThat(reader.cut(id).map(StoredCut::cut)).contains(cut);
    }
  }

  @Test
  void aRecordingComesBackWithItsClock() {
    HostClock hostClock = new HostClock(Examples.NOON.minusSeconds(3), -42.5);
    try (Store store = Store.open(directory, CLOCK);
        StoreReader reader = StoreReader.open(directory)) {
      long id = store.startRecording(Examples.recording());
      assertThat(reader.recording(id))
          .contains(new StoredRecording(id, Examples.recording(), Optional.empty()));
      store.setClock(id, hostClock);
      assertThat(reader.recording(id))
          .contains(new StoredRecording(id, Examples.recording(), Optional.of(hostClock)));
    }
  }

  @Test
  void aRigIsOneRowForAllItsRecordings() {
    Instant later = Examples.NOON.plusSeconds(60);
    Recording first = Examples.recording();
    Recording second =
        new Recording(
            first.deviceId(),
            "sketch 1.3",
            "/dev/ttyUSB1",
            first.form(),
            later,
            first.gain(),
            Optional.empty(),
            2);
    try (Store store = Store.open(directory, CLOCK);
        StoreReader reader = StoreReader.open(directory)) {
      store.startRecording(first);
      store.startRecording(second);
      assertThat(reader.rigs())
          .containsExactly(new Rig(first.deviceId(), "sketch 1.3", Examples.NOON, later));
    }
  }

  @Test
  void appendingTheSameCutAgainChangesNothing() {
    try (Store store = Store.open(directory, CLOCK);
        StoreReader reader = StoreReader.open(directory)) {
      long recording = store.startRecording(Examples.recording());
      long id = store.append(NewCut.of(recording, Examples.NOON, Examples.severed(1)));
      assertThat(store.append(NewCut.of(recording, Examples.NOON, Examples.severed(1))))
          .isEqualTo(id);
      assertThat(reader.count(CutSelection.all())).isEqualTo(1);
    }
  }

  @Test
  void anotherCutOfTheSameNumberIsRefused() {
    try (Store store = Store.open(directory, CLOCK)) {
      long recording = store.startRecording(Examples.recording());
      store.append(NewCut.of(recording, Examples.NOON, Examples.severed(1)));
      Cut other = Examples.severed(1, Examples.trace(5, 20));
      assertThatThrownBy(() -> store.append(NewCut.of(recording, Examples.NOON, other)))
          .isInstanceOf(IllegalArgumentException.class)
          .hasMessageContaining("already has a cut 1");
    }
  }

  @Test
  void aCutOfAnUnknownRecordingIsRefusedWhole() {
    try (Store store = Store.open(directory, CLOCK);
        StoreReader reader = StoreReader.open(directory)) {
      assertThatThrownBy(() -> store.append(NewCut.of(7, Examples.NOON, Examples.severed(1))))
          .isInstanceOf(StoreException.class)
          .hasMessageContaining("FOREIGN KEY");
      assertThat(reader.count(CutSelection.all())).isZero();
    }
  }

  @Test
  void pagesRunFromTheNewestToTheOldest() {
    try (Store store = Store.open(directory, CLOCK);
        StoreReader reader = StoreReader.open(directory)) {
      List<Long> ids = tenCuts(store);
      List<Long> seen = new ArrayList<>();
      List<CutSummary> page = reader.latest(CutSelection.all(), 4);
      while (!page.isEmpty()) {
        page.forEach(cut -> seen.add(cut.id()));
        page = reader.latestBefore(CutSelection.all(), page.get(page.size() - 1), 4);
      }
      java.util.Collections.reverse(seen);
      assertThat(seen).isEqualTo(ids);
    }
  }

  @Test
  void aSelectionHoldsByRecordingAndTime() {
    try (Store store = Store.open(directory, CLOCK);
        StoreReader reader = StoreReader.open(directory)) {
      List<Long> ids = tenCuts(store);
      long other = store.startRecording(Examples.recording());
      long apart = store.append(NewCut.of(other, Examples.NOON, Examples.severed(1)));
      CutSelection middle =
          CutSelection.all()
              .from(Examples.NOON.plusSeconds(2))
              .before(Examples.NOON.plusSeconds(5));
      assertThat(reader.latest(middle, 9))
          .extracting(CutSummary::id)
          .hasSameElementsAs(ids.subList(2, 5));
      assertThat(reader.latest(CutSelection.all(), 99))
          .filteredOn(cut -> cut.recordingId() == other)
          .extracting(CutSummary::id)
          .containsExactly(apart);
    }
  }

  @Test
  void everyCutIsGivenOnceInTheOrderOfStoring() {
    try (Store store = Store.open(directory, CLOCK);
        StoreReader reader = StoreReader.open(directory)) {
      long recording = store.startRecording(Examples.recording());
      IntStream.rangeClosed(1, 1_050)
          .forEach(n -> store.append(NewCut.of(recording, Examples.NOON, Examples.released(n))));
      List<Cut> given = new ArrayList<>();
      reader.forEachCut(CutSelection.all(), cut -> given.add(cut.cut()));
      assertThat(given)
          .isEqualTo(IntStream.rangeClosed(1, 1_050).mapToObj(Examples::released).toList());
    }
  }

  private static List<Long> tenCuts(Store store) {
    long recording = store.startRecording(Examples.recording());
    return IntStream.rangeClosed(1, 10)
        .mapToObj(
            n ->
                store.append(
                    NewCut.of(
                        recording,
                        Examples.NOON.plus(Duration.ofSeconds(n - 1)),
                        Examples.severed(n, Examples.trace(n, 30)))))
        .toList();
  }

  @Test
  void theStoreIsTheOwnersAlone() throws Exception {
    Store.open(directory, CLOCK).close();
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(directory)))
        .isEqualTo("rwx------");
    assertThat(
            PosixFilePermissions.toString(
                Files.getPosixFilePermissions(directory.resolve("snick.db"))))
        .isEqualTo("rw-------");
  }

  @Test
  void aReaderOfNothingSaysSo() {
    assertThatThrownBy(() -> StoreReader.open(directory))
        .isInstanceOfSatisfying(
            StoreException.class,
            e -> assertThat(e.trouble()).isEqualTo(StoreException.Trouble.MISSING))
        .hasMessageContaining(directory.resolve("snick.db").toString());
  }
}
