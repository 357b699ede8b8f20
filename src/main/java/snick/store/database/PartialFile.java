package snick.store.database;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.util.List;

/**
 * A file under a temporary name, gone when this is closed. Its maker holds a lock on a second file
 * beside it: one whose lock is free was left by a program that was killed, and is removed by the
 * next to look. A file without a lock beside it is left alone.
 */
public final class PartialFile implements AutoCloseable {
  private static final String PREFIX = "snick-";
  private static final String PARTIAL = ".partial";
  private static final String LOCK = ".partial-lock";

  /** What SQLite may have had beside a file. */
  private static final List<String> BESIDE = List.of("-journal", "-wal", "-shm", "");

  private final Path lockFile;
  private final FileChannel lock;

  private PartialFile(Path lockFile, FileChannel lock) {
    this.lockFile = lockFile;
    this.lock = lock;
  }

  /** An empty one in {@code directory}, the owner's alone. */
  public static PartialFile in(Path directory) throws IOException {
    return created(directory, StoreFile.ownersAlone(directory, "rw-------"));
  }

  /** An empty one in {@code directory}, with the permissions that any new file is given. */
  static PartialFile asAnyIn(Path directory) throws IOException {
    return created(directory);
  }

  private static PartialFile created(Path directory, FileAttribute<?>... permissions)
      throws IOException {
    PartialFile file = locked(directory);
    try {
      Files.createFile(file.path(), permissions);
      return file;
    } catch (IOException e) {
      file.close();
      throw e;
    }
  }

  /** Another program may take a lock file away as left over before it is locked: then anew. */
  private static PartialFile locked(Path directory) throws IOException {
    while (true) {
      Path lockFile = Files.createTempFile(directory, ownPrefix(), LOCK);
      FileChannel channel;
      try {
        channel = FileChannel.open(lockFile, StandardOpenOption.WRITE);
      } catch (NoSuchFileException taken) {
        continue;
      }
      try {
        if (channel.tryLock() != null && Files.exists(lockFile)) {
          return new PartialFile(lockFile, channel);
        }
      } catch (IOException e) {
        Files.deleteIfExists(lockFile);
        channel.close();
        throw e;
      }
      channel.close();
    }
  }

  private static String ownPrefix() {
    return PREFIX + ProcessHandle.current().pid() + "-";
  }

  public Path path() {
    return partialOf(lockFile);
  }

  private static Path partialOf(Path lockFile) {
    String name = lockFile.getFileName().toString();
    return lockFile.resolveSibling(name.substring(0, name.length() - LOCK.length()) + PARTIAL);
  }

  /** Removes those in {@code directory} that a killed program left; what cannot be read stays. */
  public static void removeLeftOver(Path directory) {
    try (DirectoryStream<Path> found = Files.newDirectoryStream(directory, PREFIX + "*" + LOCK)) {
      for (Path lockFile : found) {
        removeIfLeft(lockFile);
      }
    } catch (IOException | DirectoryIteratorException e) {
      // Room that is not won back; nothing depends on it.
      return;
    }
  }

  /**
   * One's own are not even opened: closing a second channel of a file can free the lock that this
   * process holds on it (POSIX.1-2017, fcntl).
   */
  private static void removeIfLeft(Path lockFile) {
    if (lockFile.getFileName().toString().startsWith(ownPrefix())) {
      return;
    }
    try (FileChannel channel =
        FileChannel.open(lockFile, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS)) {
      if (channel.tryLock() != null) {
        delete(lockFile);
      }
    } catch (IOException e) {
      // Its maker was done, or it is not ours to remove.
      return;
    }
  }

  private static void delete(Path lockFile) throws IOException {
    Path partial = partialOf(lockFile);
    for (String ending : BESIDE) {
      Files.deleteIfExists(partial.resolveSibling(partial.getFileName() + ending));
    }
    Files.deleteIfExists(lockFile);
  }

  @Override
  public void close() throws IOException {
    try (lock) {
      delete(lockFile);
    }
  }
}
