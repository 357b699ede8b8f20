package snick.store.database;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import snick.phrase.Phrase;
import snick.store.database.StoreException.Trouble;

/** The file of a store and its directory; where the system knows permissions, the owner's alone. */
public final class StoreFile {
  private static final String NAME = "snick.db";

  private static final DateTimeFormatter UPGRADE_TIME =
      DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss.SSS'Z'", Locale.ROOT).withZone(ZoneOffset.UTC);

  private StoreFile() {}

  /** Where a store keeps the library that reads it. */
  public static Path libraryIn(Path directory) {
    return directory.resolve("native");
  }

  public static Path in(Path directory) {
    return directory.resolve(NAME);
  }

  /** Creates what is missing; the file is empty then. */
  public static Path create(Path directory) {
    Path file = inNew(directory);
    try {
      if (Files.notExists(file)) {
        Files.createFile(file, ownersAlone(directory, "rw-------"));
      }
      return file;
    } catch (FileAlreadyExistsException e) {
      return alreadyThere(file, e);
    } catch (IOException e) {
      throw notCreated(file, e);
    }
  }

  /** The file in a directory that is created if missing. */
  public static Path inNew(Path directory) {
    Path file = in(directory);
    try {
      Files.createDirectories(directory, ownersAlone(directory, "rwx------"));
      return file;
    } catch (FileAlreadyExistsException e) {
      return alreadyThere(file, e);
    } catch (IOException e) {
      throw notCreated(file, e);
    }
  }

  private static StoreException notCreated(Path file, IOException e) {
    return new StoreException(
        Trouble.READ_ONLY, Phrase.of("store.not_created", "file", file, "reason", reason(e)), e);
  }

  private static Object reason(IOException e) {
    return e instanceof AccessDeniedException ? Phrase.of("store.no_permission") : e.toString();
  }

  /** Another program created the file at the same moment, or something else is in the way. */
  private static Path alreadyThere(Path file, FileAlreadyExistsException e) {
    if (Files.isRegularFile(file)) {
      return file;
    }
    throw new StoreException(
        Trouble.OTHER, Phrase.of("store.in_the_way", "what", e.getFile(), "file", file), e);
  }

  public static FileAttribute<?>[] ownersAlone(Path where, String permissions) {
    if (!where.getFileSystem().supportedFileAttributeViews().contains("posix")) {
      return new FileAttribute<?>[0];
    }
    Set<PosixFilePermission> set = PosixFilePermissions.fromString(permissions);
    return new FileAttribute<?>[] {PosixFilePermissions.asFileAttribute(set)};
  }

  /** Where the copy of a store goes before it is brought up to date. */
  public static Path beforeUpgrade(Path file, int version, Instant now) {
    return file.resolveSibling("snick-version-" + version + "-" + UPGRADE_TIME.format(now) + ".db");
  }

  /**
   * Writes a file of the owner's alone anew, where the system knows permissions; whoever reads it
   * meanwhile sees it before or after. It is not forced to the disk. What a killed program left of
   * such writing in the same folder is removed.
   *
   * @throws IOException if it cannot be written; what was there before stays
   */
  public static void replace(Path file, byte[] content) throws IOException {
    try (PartialFile draft = PartialFile.in(swept(file))) {
      lay(draft, content, file);
    }
  }

  /**
   * As {@link #replace}, of a file that need not be the owner's alone: its permissions stay as they
   * are, and a link to it stays one. A new one has those that the system gives to any new file.
   */
  public static void rewrite(Path file, byte[] content) throws IOException {
    if (Files.notExists(file)) {
      boolean link = Files.isSymbolicLink(file);
      Path there = link ? file.resolveSibling(Files.readSymbolicLink(file)) : file;
      try (PartialFile draft = PartialFile.asAnyIn(swept(there))) {
        lay(draft, content, there);
      }
      return;
    }
    Path there = file.toRealPath();
    try (PartialFile draft = PartialFile.in(swept(there))) {
      PosixFileAttributeView modes =
          Files.getFileAttributeView(draft.path(), PosixFileAttributeView.class);
      if (modes != null) {
        modes.setPermissions(Files.getPosixFilePermissions(there));
      }
      lay(draft, content, there);
    }
  }

  private static Path swept(Path file) {
    Path folder = file.toAbsolutePath().getParent();
    PartialFile.removeLeftOver(folder);
    return folder;
  }

  private static void lay(PartialFile draft, byte[] content, Path file) throws IOException {
    Files.write(draft.path(), content);
    Files.move(
        draft.path(), file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
  }

  /**
   * Device and inode of a file, where the system has such; empty if there is no file, or no such
   * thing.
   */
  static Optional<Object> key(Path file) {
    try {
      return Optional.ofNullable(Files.readAttributes(file, BasicFileAttributes.class).fileKey());
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  /** The file of a store that must exist. */
  public static Path existing(Path directory) {
    return requireThere(in(directory));
  }

  public static Path requireThere(Path file) {
    if (Files.notExists(file)) {
      throw new StoreException(Trouble.MISSING, Phrase.of("store.missing", "file", file));
    }
    return file;
  }
}
