package snick.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cut.Cut;

class BackupTest {
  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-05-04T13:00:00Z"), ZoneOffset.UTC);

  @TempDir Path temporary;
  private Path directory;
  private Path target;

  @BeforeEach
  void places() {
    directory = temporary.resolve("it's a store");
    target = temporary.resolve("copy.db");
  }

  private long fill() {
    try (Store store = Store.open(directory, CLOCK)) {
      long recording = store.startRecording(Examples.recording());
      return store.append(NewCut.of(recording, Examples.NOON, Examples.severed(1)));
    }
  }

  private List<String> leftOver() throws IOException {
    try (Stream<Path> files = Files.list(temporary)) {
      return files.map(f -> f.getFileName().toString()).filter(f -> f.endsWith("partial")).toList();
    }
  }

  @Test
  void aBackupRestoresToTheSameCuts() throws IOException {
    long id = fill();
    StoreReader.backUp(directory, target, Watch.NONE);
    Path restored = temporary.resolve("elsewhere");
    Store.restore(target, restored, Watch.NONE);
    try (StoreReader reader = StoreReader.open(restored)) {
      assertThat(reader.cut(id).map(StoredCut::cut)).contains(Examples.severed(1));
      assertThat(reader.verify(Watch.NONE).isSound()).isTrue();
    }
    assertThat(leftOver()).isEmpty();
  }

  @Test
  void aBackupWhileRecordingIsConsistent() {
    fill();
    AtomicBoolean enough = new AtomicBoolean();
    CompletableFuture<Void> recorder = CompletableFuture.runAsync(() -> appendUntil(enough));
    try {
      for (int round = 1; round <= 3; round++) {
        Path copy = temporary.resolve("directory" + round);
        StoreReader.backUp(directory, temporary.resolve(round + ".db"), Watch.NONE);
        Store.restore(temporary.resolve(round + ".db"), copy, Watch.NONE);
        try (StoreReader reader = StoreReader.open(copy)) {
          assertThat(reader.verify(Watch.NONE).problems()).isEmpty();
        }
      }
    } finally {
      enough.set(true);
      recorder.join();
    }
  }

  private void appendUntil(AtomicBoolean enough) {
    try (Store store = Store.open(directory, CLOCK)) {
      long recording = store.startRecording(Examples.recording());
      for (int number = 1; !enough.get(); number++) {
        store.append(NewCut.of(recording, Examples.NOON, Examples.severed(number)));
      }
    }
  }

  @Test
  void anExistingFileIsLeftAlone() throws IOException {
    fill();
    Files.writeString(target, "mine");
    assertThatThrownBy(() -> StoreReader.backUp(directory, target, Watch.NONE))
        .isInstanceOf(StoreException.class)
        .hasMessageContaining("already there");
    assertThat(target).hasContent("mine");
    assertThat(leftOver()).isEmpty();
  }

  @Test
  void aStoreIsNotRestoredOverAnother() {
    fill();
    StoreReader.backUp(directory, target, Watch.NONE);
    assertThatThrownBy(() -> Store.restore(target, directory, Watch.NONE))
        .isInstanceOf(StoreException.class)
        .hasMessageContaining("already there");
  }

  @Test
  void aBackupThatIsNoneIsNotRestored() throws IOException {
    Files.writeString(target, "no database".repeat(1000));
    Path restored = temporary.resolve("elsewhere");
    assertThatThrownBy(() -> Store.restore(target, restored, Watch.NONE))
        .isInstanceOf(StoreException.class)
        .hasMessageContaining(target.toString());
    assertThat(restored).doesNotExist();
  }

  @Test
  void anOlderStoreIsCopiedThenBroughtUpToDate() {
    Cut cut = Examples.severed(1);
    long id = olderStore(cut);
    try (StoreReader reader = StoreReader.open(directory)) {
      assertThat(reader.cut(id).map(StoredCut::cut)).contains(cut);
      assertThat(reader.journal().blades()).isEmpty();
    }
    assertThat(directory).isDirectoryContaining("glob:**/snick-version-1-*.db");
  }

  @Test
  void everyOlderVersionKeepsItsCutsAndGetsTheTablesAndIndexesOfANewStore() {
    Store.open(directory, CLOCK).close();
    for (int version = 1; version < Migrations.VERSION; version++) {
      Path older = temporary.resolve("version " + version);
      OlderStore.make(older, version, 3);
      try (StoreReader reader = StoreReader.open(older)) {
        List<Cut> cuts = new ArrayList<>();
        reader.forEachCut(CutSelection.all(), cut -> cuts.add(cut.cut()));
        assertThat(cuts)
            .containsExactly(Examples.severed(1), Examples.severed(2), Examples.severed(3));
        assertThat(reader.verify(Watch.NONE).problems()).isEmpty();
      }
      assertThat(schema(older)).isEqualTo(schema(directory));
    }
  }

  private static List<String> schema(Path directory) {
    try (Database database = Database.reader(StoreFile.in(directory))) {
      return database
          .query(
              "SELECT type || ' ' || name || ' ' || coalesce(sql, '') AS made FROM sqlite_schema ORDER BY 1")
          .list(row -> row.text("made"));
    }
  }

  @Test
  void theCopyBeforeAnUpgradeIsTheOldStore() {
    long id = olderStore(Examples.severed(1));
    Store.open(directory, CLOCK).close();
    Path copy = directory.resolve("snick-version-1-20260504T130000.000Z.db");
    try (Database old = Database.reader(copy)) {
      assertThat(old.pragma("user_version")).isEqualTo(1);
      assertThat(OlderStore.trace(old, id)).isEqualTo(Examples.severed(1).trace());
    }
  }

  /** A store as the first version left it. */
  private long olderStore(Cut cut) {
    try (Database database = Database.writer(StoreFile.create(directory))) {
      new Migrations(database).runTo(1);
      return database.write(
          () -> {
            long recording = new RecordingTable(database).add(Examples.recording());
            return OlderStore.addCut(database, recording, cut);
          });
    }
  }
}
