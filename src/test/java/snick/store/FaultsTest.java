package snick.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snick.FolderCopy;
import snick.store.care.IntegrityReport;
import snick.store.database.Database;
import snick.store.database.Migrations;
import snick.store.database.StoreException;
import snick.store.database.StoreException.Trouble;
import snick.store.database.StoreFile;
import snick.store.database.Watch;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.store.record.NewCut;

/** What the store does when the world around it fails. */
class FaultsTest {
  private static final Clock CLOCK = Clock.systemUTC();

  @TempDir Path directory;

  private Path file() {
    return directory.resolve("snick.db");
  }

  private long appendedCut() {
    try (Store store = Store.open(directory, CLOCK)) {
      return append(store, 1);
    }
  }

  private static long append(Store store, int number) {
    long recording = store.startRecording(Examples.recording());
    return store.append(NewCut.of(recording, Examples.NOON, Examples.severed(number)));
  }

  private static StoreException refusal(ThrowingCallable act) {
    return catchThrowableOfType(StoreException.class, act);
  }

  /** What a program left that did {@code first}, and was killed with half a transaction written. */
  private Path killedWhileWriting(String name, String first) throws IOException {
    Path making = directory.resolve(name);
    Path killed = directory.resolve(name + "-killed");
    try (Database database = Database.writer(StoreFile.create(making))) {
      database.execute(first);
      database.execute("PRAGMA cache_size = 1");
      database.execute("BEGIN IMMEDIATE");
      database.execute("CREATE TABLE half (made BLOB)");
      database.execute("INSERT INTO half VALUES (zeroblob(1000000))");
      FolderCopy.lay(making, killed);
      database.execute("ROLLBACK");
    }
    assertThat(StoreFile.in(killed)).isNotEmptyFile();
    assertThat(killed.resolve("snick.db-journal")).isNotEmptyFile();
    return killed;
  }

  /** Killed before its commits were kept in a write-ahead log, with half of them in the file. */
  @Test
  void aStoreWhoseMakingWasCutOffIsReadWithoutHelp() throws IOException {
    Path killed = killedWhileWriting("making", "PRAGMA encoding = 'UTF-8'");
    Path alsoKilled = directory.resolve("also-killed");
    FolderCopy.lay(killed, alsoKilled);
    assertThat(StoreReader.backUp(alsoKilled, directory.resolve("backup.db"), Watch.NONE))
        .isEmpty();
    try (StoreReader reader = StoreReader.open(killed)) {
      assertThat(reader.verify(Watch.NONE).problems()).isEmpty();
      assertThat(reader.count(CutSelection.all())).isZero();
    }
  }

  @Test
  void afterAFullDiskTheSameStoreGoesOn() {
    appendedCut();
    Database database = Database.writer(file());
    try (Store store = new Store(database, CLOCK);
        StoreReader reader = StoreReader.open(directory)) {
      long recording = store.startRecording(Examples.recording());
      database.execute("PRAGMA max_page_count = " + database.pragma("page_count"));
      NewCut large =
          NewCut.of(recording, Examples.NOON, Examples.severed(1, Examples.trace(1, 20_000)));
      StoreException full = refusal(() -> store.append(large));
      assertThat(full.trouble()).isEqualTo(Trouble.FULL);
      assertThat(full).hasMessageContaining(file().toString()).hasMessageContaining("free some");
      assertThat(reader.latest(CutSelection.all(), 9))
          .noneMatch(cut -> cut.recordingId() == recording);

      database.execute("PRAGMA max_page_count = 1000000");
      long id = store.append(large);
      assertThat(reader.cut(id).orElseThrow().cut()).isEqualTo(large.cut());
      assertThat(reader.verify(Watch.NONE).problems()).isEmpty();
    }
  }

  @Test
  void aStoreThatMayNotBeWrittenSaysSo() {
    appendedCut();
    Database database = Database.reader(file());
    try (Store store = new Store(database, CLOCK)) {
      StoreException refused = refusal(() -> append(store, 2));
      assertThat(refused.trouble()).isEqualTo(Trouble.READ_ONLY);
      assertThat(refused).hasMessageContaining("make the file and its directory writable");
    }
  }

  @Test
  void aWriterThatWaitsTooLongSaysSo() {
    appendedCut();
    try (Database holder = Database.writer(file());
        Database other = Database.writer(file())) {
      holder.execute("BEGIN IMMEDIATE");
      other.execute("PRAGMA busy_timeout = 20");
      StoreException refused = refusal(() -> other.write(() -> null));
      assertThat(refused.trouble()).isEqualTo(Trouble.BUSY);
      holder.execute("ROLLBACK");
      assertThat(other.<String>write(() -> "written")).isEqualTo("written");
    }
  }

  @Test
  void twoWritersAndAReaderShareAStore() throws Exception {
    ExecutorService threads = Executors.newFixedThreadPool(2);
    try {
      List<Future<List<Long>>> writers = new ArrayList<>();
      for (int i = 0; i < 2; i++) {
        writers.add(threads.submit(this::appendFifty));
      }
      List<Long> ids = new ArrayList<>();
      for (Future<List<Long>> writer : writers) {
        ids.addAll(writer.get());
      }
      try (StoreReader reader = StoreReader.open(directory)) {
        assertThat(ids).hasSize(100).doesNotHaveDuplicates();
        assertThat(reader.count(CutSelection.all())).isEqualTo(100);
        assertThat(reader.verify(Watch.NONE).problems()).isEmpty();
      }
    } finally {
      threads.shutdownNow();
    }
  }

  private List<Long> appendFifty() {
    List<Long> ids = new ArrayList<>();
    try (Store store = Store.open(directory, CLOCK)) {
      long recording = store.startRecording(Examples.recording());
      for (int number = 1; number <= 50; number++) {
        ids.add(store.append(NewCut.of(recording, Examples.NOON, Examples.severed(number))));
      }
    }
    return ids;
  }

  @Test
  void aNewerStoreIsRefusedAndNotTouched() throws IOException {
    appendedCut();
    int newer = Migrations.VERSION + 1;
    try (Database database = Database.writer(file())) {
      database.execute("PRAGMA user_version = " + newer);
    }
    byte[] before = Files.readAllBytes(file());
    for (StoreException refused :
        List.of(
            refusal(() -> Store.open(directory, CLOCK)),
            refusal(() -> StoreReader.open(directory)))) {
      assertThat(refused.trouble()).isEqualTo(Trouble.NEWER_VERSION);
      assertThat(refused)
          .hasMessageContaining(file().toString())
          .hasMessageContaining("schema version " + newer)
          .hasMessageContaining("up to " + Migrations.VERSION)
          .hasMessageContaining("use the newer program");
    }
    assertThat(Files.readAllBytes(file())).isEqualTo(before);
  }

  /** Played back, a journal changes the file: that is for the program that left it. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "PRAGMA application_id = 1399744875; PRAGMA user_version = 99 | NEWER_VERSION",
        "PRAGMA application_id = 7 | OTHER",
        "CREATE TABLE recipe (name TEXT) | OTHER"
      })
  void whatAnotherProgramOrANewerOneWasKilledInIsNotTouched(String first, Trouble trouble)
      throws IOException {
    Path killed = killedWhileWriting("theirs", first);
    Path journal = killed.resolve("snick.db-journal");
    byte[] fileBefore = Files.readAllBytes(StoreFile.in(killed));
    byte[] journalBefore = Files.readAllBytes(journal);
    for (StoreException refused :
        List.of(
            refusal(() -> StoreReader.open(killed)),
            refusal(() -> StoreReader.backUp(killed, directory.resolve("backup.db"), Watch.NONE)),
            refusal(() -> Store.open(killed, CLOCK)))) {
      assertThat(refused.trouble()).isEqualTo(trouble);
    }
    assertThat(StoreFile.in(killed)).hasBinaryContent(fileBefore);
    assertThat(journal).hasBinaryContent(journalBefore);
  }

  @Test
  void aDatabaseOfAnotherProgramIsRefused() {
    try (Database database = Database.writer(StoreFile.create(directory))) {
      database.execute("CREATE TABLE recipe (name TEXT)");
    }
    assertThatThrownBy(() -> Store.open(directory, CLOCK))
        .isInstanceOf(StoreException.class)
        .hasMessageContaining("database of another program");
  }

  @Test
  void aFileThatIsNoDatabaseIsRefused() throws IOException {
    Files.writeString(file(), "not a database at all, but long enough to have a header".repeat(99));
    StoreException refused = refusal(() -> Store.open(directory, CLOCK));
    assertThat(refused.trouble()).isEqualTo(Trouble.DAMAGED);
    assertThat(refused).hasMessageContaining("snick store restore BACKUP");
  }

  @Test
  void aDamagedSchemaIsRefused() throws IOException {
    appendedCut();
    overwritePage(1);
    for (StoreException refused :
        List.of(
            refusal(() -> Store.open(directory, CLOCK)),
            refusal(() -> StoreReader.open(directory)))) {
      assertThat(refused.trouble()).isEqualTo(Trouble.DAMAGED);
      assertThat(refused)
          .hasMessageContaining(file().toString())
          .hasMessageContaining("snick store restore BACKUP");
    }
  }

  @Test
  void aDamagedPageOfTracesIsFoundAndTheListsStayReadable() throws IOException {
    long id = appendedCut();
    overwritePage(rootPage("cut_trace"));
    try (StoreReader reader = StoreReader.open(directory)) {
      IntegrityReport report = reader.verify(Watch.NONE);
      assertThat(report.isSound()).isFalse();
      assertThat(report.damagedTraces()).isEqualTo(1);
      assertThat(reader.latest(CutSelection.all(), 5))
          .extracting(CutSummary::id)
          .containsExactly(id);
      assertThat(refusal(() -> reader.cut(id)).trouble()).isEqualTo(Trouble.DAMAGED);
    }
  }

  @Test
  void aDamagedStoreGivesNoBackup() throws IOException {
    appendedCut();
    overwritePage(rootPage("cut_trace"));
    Path target = directory.resolve("copy.db");
    StoreException refused = refusal(() -> StoreReader.backUp(directory, target, Watch.NONE));
    assertThat(refused.trouble()).isEqualTo(Trouble.DAMAGED);
    assertThat(refused).hasMessageStartingWith("no copy was made to " + target);
    assertThat(target).doesNotExist();
  }

  private long rootPage(String table) {
    try (Database database = Database.reader(file())) {
      return database
          .query("SELECT rootpage FROM sqlite_schema WHERE name = ?")
          .with(table)
          .first(row -> row.whole("rootpage"))
          .orElseThrow();
    }
  }

  private void overwritePage(long page) throws IOException {
    try (RandomAccessFile raw = new RandomAccessFile(file().toFile(), "rw")) {
      byte[] noise = new byte[4096];
      java.util.Arrays.fill(noise, (byte) 0x5A);
      raw.seek((page - 1) * noise.length);
      raw.write(noise);
    }
  }

  @Test
  void aDamagedTraceIsNamedAndTheOthersAreReadable() {
    long damaged;
    long sound;
    try (Store store = Store.open(directory, CLOCK)) {
      damaged = append(store, 1);
      sound = append(store, 2);
    }
    try (Database database = Database.writer(file())) {
      database
          .query("UPDATE cut_trace SET samples = zeroblob(length(samples)) WHERE cut = ?")
          .with(damaged)
          .change();
    }
    try (StoreReader reader = StoreReader.open(directory)) {
      StoreException refused = refusal(() -> reader.cut(damaged));
      assertThat(refused.trouble()).isEqualTo(Trouble.DAMAGED);
      assertThat(refused).hasMessageContaining("trace of cut " + damaged + " has checksum");
      assertThat(reader.cut(sound)).isPresent();
      assertThat(reader.summary(damaged)).isPresent();
      IntegrityReport report = reader.verify(Watch.NONE);
      assertThat(report.traces()).isEqualTo(2);
      assertThat(report.damagedTraces()).isEqualTo(1);
      assertThat(report.problems()).singleElement().asString().contains("cut " + damaged);
    }
  }

  @Test
  void aMissingTraceAndOneOfWrongLengthAreFound() {
    try (Store store = Store.open(directory, CLOCK)) {
      append(store, 1);
      append(store, 2);
    }
    try (Database database = Database.writer(file())) {
      database.execute(
          "DELETE FROM cut_trace WHERE cut = 1; UPDATE cut SET samples = 3 WHERE id = 2");
    }
    try (StoreReader reader = StoreReader.open(directory)) {
      List<String> progress = new ArrayList<>();
      Watch watch = (doing, done, total) -> progress.add(doing + " " + done + " of " + total);
      assertThat(reader.verify(watch).problems())
          .satisfiesExactly(
              p -> assertThat(p).contains("row 2 of cut has checksum"),
              p -> assertThat(p).contains("trace of cut 1 is missing"),
              p -> assertThat(p).contains("trace of cut 2 has 600 samples, its cut says 3"));
      assertThat(progress).endsWith("checking traces 0 of 2", "checking traces 1 of 2");
    }
  }

  @Test
  void aReferenceToNothingIsFound() {
    appendedCut();
    try (Database database = Database.writer(file())) {
      database.execute("PRAGMA foreign_keys = OFF; DELETE FROM recording");
    }
    try (StoreReader reader = StoreReader.open(directory)) {
      assertThat(reader.verify(Watch.NONE).problems())
          .containsExactly(
              "cut row 1 refers to a missing recording", "row 1 of recording is missing");
    }
  }

  @Test
  void aDirectoryWhereAFileStandsIsRefused() throws IOException {
    Path taken = Files.createFile(directory.resolve("taken"));
    StoreException refused = refusal(() -> Store.open(taken, CLOCK));
    assertThat(refused).hasMessageContaining("is in the way");
  }
}
