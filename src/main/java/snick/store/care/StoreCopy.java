package snick.store.care;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.function.Function;
import snick.phrase.Phrase;
import snick.store.database.Database;
import snick.store.database.PartialFile;
import snick.store.database.StoreException;
import snick.store.database.StoreException.Trouble;
import snick.store.database.Watch;

/**
 * A consistent copy of a store under a new name, also while it is written to: made under a
 * temporary name ending in {@code .partial}, checked, on disk, then named. Never over an existing
 * file.
 */
public final class StoreCopy {
  private final Path target;
  private final Watch watch;

  public StoreCopy(Path target, Watch watch) {
    this.target = target.toAbsolutePath();
    this.watch = watch;
  }

  /** Copies a whole store. */
  public void of(Path source) {
    filledBy(
        partial -> {
          copy(source, partial);
          return partial;
        });
  }

  private void copy(Path source, Path partial) {
    try (Database from = Database.source(source)) {
      long totalBytes = from.pragma("page_count") * from.pragma("page_size");
      from.watched(
          () -> watch.goesOn("copying", bytes(partial), totalBytes),
          () -> from.query("VACUUM INTO ?").with(partial.toString()).change());
    } catch (StoreException e) {
      throw new StoreException(
          e.trouble(),
          Phrase.of("store.no_copy")
              .with("target", target)
              .with("why", e.trouble() == Trouble.FULL ? Phrase.of("store.disk_full") : e.why()),
          e);
    }
  }

  private static long bytes(Path file) {
    try {
      return Files.size(file);
    } catch (IOException e) {
      return 0;
    }
  }

  /** What {@code filler} gives after it filled the empty file it is given. */
  public <T> T filledBy(Function<Path, T> filler) {
    if (Files.exists(target)) {
      throw alreadyThere();
    }
    try {
      PartialFile.removeLeftOver(target.getParent());
      try (PartialFile partial = PartialFile.in(target.getParent())) {
        T result = filler.apply(partial.path());
        check(partial.path());
        flush(partial.path());
        name(partial.path());
        return result;
      }
    } catch (IOException e) {
      throw new StoreException(
          Trouble.OTHER, Phrase.of("store.copy_not_written", "target", target, "what", e), e);
    }
  }

  private static void flush(Path partial) throws IOException {
    try (FileChannel channel = FileChannel.open(partial, StandardOpenOption.WRITE)) {
      channel.force(true);
    }
  }

  private void check(Path partial) {
    try (Database copy = Database.reader(partial)) {
      copy.watched(
          () -> watch.goesOn("checking the copy", 0, 0), () -> IntegrityCheck.requireSound(copy));
    } catch (StoreException e) {
      throw new StoreException(
          e.trouble(), Phrase.of("store.copy_unsound", "target", target, "why", e.why()), e);
    }
  }

  /** A hard link, unlike a move, never replaces a file that came up meanwhile. */
  private void name(Path partial) throws IOException {
    try {
      Files.createLink(target, partial);
    } catch (FileAlreadyExistsException e) {
      throw alreadyThere();
    } catch (UnsupportedOperationException | IOException e) {
      Files.move(partial, target);
    }
    flushDirectory(target.getParent());
  }

  /** Gives a file that is on disk its name for good, also over another. */
  public static void rename(Path partial, Path target) throws IOException {
    Files.move(partial, target, StandardCopyOption.REPLACE_EXISTING);
    flushDirectory(target.getParent());
  }

  private static void flushDirectory(Path folder) throws IOException {
    if (folder.getFileSystem().supportedFileAttributeViews().contains("posix")) {
      try (FileChannel directory = FileChannel.open(folder, StandardOpenOption.READ)) {
        directory.force(true);
      }
    }
  }

  private StoreException alreadyThere() {
    return new StoreException(Trouble.TAKEN, Phrase.of("store.copy_there", "target", target));
  }
}
