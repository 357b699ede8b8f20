package snick.store.care;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import snick.store.database.Database;
import snick.store.database.Migrations;

/**
 * A copy of a store whose file header is destroyed, with the header of a new store of this version:
 * apart from the number of pages it holds nothing of its own ("Database File Format", section 1.3,
 * sqlite.org/fileformat.html). The list of free pages is given up.
 */
final class NewHead implements AutoCloseable {
  private static final int HEAD_BYTES = 100;
  private static final int PAGE_COUNT_AT = 28;
  private static final int PAGE_BYTES = 4096;

  private final Path workshop;

  private NewHead(Path workshop) {
    this.workshop = workshop;
  }

  /** Makes the copy, and the log's beside it, in a folder beside {@code beside}. */
  static NewHead on(Path damaged, Path beside) throws IOException {
    NewHead copy = new NewHead(Files.createTempDirectory(beside.getParent(), "snick-head-"));
    try {
      Files.copy(damaged, copy.file());
      Path log = damaged.resolveSibling(damaged.getFileName() + "-wal");
      if (Files.exists(log)) {
        Files.copy(log, copy.log());
      }
      copy.putHead();
      return copy;
    } catch (IOException | RuntimeException e) {
      copy.close();
      throw e;
    }
  }

  Path file() {
    return workshop.resolve("snick.db");
  }

  private Path log() {
    return workshop.resolve("snick.db-wal");
  }

  private Path sample() {
    return workshop.resolve("new.db");
  }

  private void putHead() throws IOException {
    Files.createFile(sample());
    try (Database database = Database.writer(sample())) {
      new Migrations(database).runTo(Migrations.VERSION);
    }
    try (RandomAccessFile from = new RandomAccessFile(sample().toFile(), "r");
        RandomAccessFile to = new RandomAccessFile(file().toFile(), "rw")) {
      byte[] head = new byte[HEAD_BYTES];
      from.readFully(head);
      ByteBuffer.wrap(head).putInt(PAGE_COUNT_AT, Math.toIntExact(to.length() / PAGE_BYTES));
      to.write(head);
    }
  }

  @Override
  public void close() throws IOException {
    Path index = workshop.resolve("snick.db-shm");
    for (Path path : List.of(sample(), log(), index, file(), workshop)) {
      Files.deleteIfExists(path);
    }
  }
}
