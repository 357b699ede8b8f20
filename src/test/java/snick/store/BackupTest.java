package snick.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.store.database.Database;
import snick.store.database.Migrations;
import snick.store.database.StoreException;
import snick.store.database.StoreFile;
import snick.store.database.Watch;
import snick.store.record.NewCut;
import snick.store.record.StoredCut;
import snick.store.table.CutTable;

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
    fill();
    try (Store store = Store.open(directory, CLOCK, OlderStore::later)) {
      OlderStore.append(store, 1);
    }
    try (Database upgraded = Database.reader(StoreFile.in(directory))) {
      assertThat(upgraded.pragma("user_version")).isEqualTo(Migrations.VERSION + 1);
      assertThat(upgraded.query("SELECT DISTINCT invented FROM cut").list(r -> r.text("invented")))
          .containsExactly("none");
      assertThat(new CutTable(upgraded).trace(1)).isEqualTo(Examples.severed(1).trace());
    }
    Path copy = directory.resolve("snick-version-1-20260504T130000.000Z.db");
    assertThat(OlderStore.soundVersion(copy)).isEqualTo(Migrations.VERSION);
    try (Database old = Database.reader(copy)) {
      assertThat(new CutTable(old).trace(1)).isEqualTo(Examples.severed(1).trace());
    }
  }
}
