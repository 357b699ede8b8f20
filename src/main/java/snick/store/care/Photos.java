package snick.store.care;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import snick.journal.Photo;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.store.database.Database;
import snick.store.database.PartialFile;
import snick.store.database.StoreException;
import snick.store.database.StoreException.Trouble;
import snick.store.database.StoreFile;

/**
 * Photos beside a store, each in a file named by its digest: the same photo is kept once, and a
 * changed one is found out. Any thread.
 *
 * @param folder where they lie; made when the first one is kept
 */
public record Photos(Path folder) {
  private static final String NAME = "photos";

  /** Those of the store in {@code directory}. */
  public static Photos in(Path directory) {
    return new Photos(directory.resolve(NAME));
  }

  /** Those of a backup, in a folder beside it. */
  public static Photos besideBackup(Path backup) {
    return new Photos(backup.resolveSibling(backup.getFileName() + "-" + NAME));
  }

  /**
   * Keeps a photo; it is on disk when this returns.
   *
   * @param content at most {@link Photo#MOST_BYTES}
   * @throws NotAccepted if it is too large, or no JPEG or PNG
   * @throws StoreException if it cannot be written
   */
  public Photo keep(byte[] content) {
    Photo photo = new Photo(digest(content), Photo.Kind.of(content));
    if (read(photo).isEmpty()) {
      write(photo, content);
    }
    return photo;
  }

  private void write(Photo photo, byte[] content) {
    try {
      Files.createDirectories(folder, StoreFile.ownersAlone(folder.getParent(), "rwx------"));
      PartialFile.removeLeftOver(folder);
      try (PartialFile partial = PartialFile.in(folder)) {
        try (FileChannel out = FileChannel.open(partial.path(), StandardOpenOption.WRITE)) {
          ByteBuffer rest = ByteBuffer.wrap(content);
          while (rest.hasRemaining()) {
            out.write(rest);
          }
          out.force(true);
        }
        StoreCopy.rename(partial.path(), folder.resolve(photo.name()));
      }
    } catch (IOException e) {
      throw new StoreException(
          Trouble.NOT_WRITTEN, Phrase.of("store.photo_not_kept", "folder", folder, "what", e), e);
    }
  }

  /** Its bytes; empty if they are missing, unreadable or not those that were kept. */
  public Optional<byte[]> read(Photo photo) {
    Path file = folder.resolve(photo.name());
    try {
      if (!Files.isRegularFile(file) || Files.size(file) > Photo.MOST_BYTES) {
        return Optional.empty();
      }
      byte[] content = Files.readAllBytes(file);
      return Optional.of(content).filter(c -> digest(c).equals(photo.sha256()));
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  /** What is wrong with those that {@code store} names, one sentence each. */
  public List<String> problems(Database store) {
    return named(store).stream().filter(photo -> read(photo).isEmpty()).map(this::problem).toList();
  }

  private String problem(Photo photo) {
    Path file = folder.resolve(photo.name());
    return "photo " + file + (Files.exists(file) ? " is not what was kept" : " is missing");
  }

  /** Keeps those of {@code others} that {@code store} names; what is wrong, one sentence each. */
  public List<String> takeOver(Photos others, Database store) {
    List<String> problems = new ArrayList<>();
    for (Photo photo : named(store)) {
      others.read(photo).ifPresentOrElse(this::keep, () -> problems.add(others.problem(photo)));
    }
    return problems;
  }

  /** As {@link #takeOver(Photos, Database)}, those that the store in {@code file} names. */
  public List<String> takeOver(Photos others, Path file) {
    try (Database store = Database.reader(file)) {
      return takeOver(others, store);
    }
  }

  private static List<Photo> named(Database store) {
    return store
        .query("SELECT DISTINCT photo FROM inspection WHERE photo IS NOT NULL ORDER BY photo")
        .list(row -> row.text("photo"))
        .stream()
        .flatMap(name -> Photo.named(name).stream())
        .toList();
  }

  private static String digest(byte[] content) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(content));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
