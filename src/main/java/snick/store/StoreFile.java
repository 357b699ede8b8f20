package snick.store;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Set;
import snick.store.StoreException.Trouble;

/** The file of a store and its directory; where the system knows permissions, the owner's alone. */
final class StoreFile {
  private static final String NAME = "snick.db";

  private StoreFile() {}

  static Path in(Path directory) {
    return directory.resolve(NAME);
  }

  /** Creates what is missing; the file is empty then. */
  static Path create(Path directory) {
    Path file = in(directory);
    try {
      Files.createDirectories(directory, ownersAlone(directory, "rwx------"));
      if (Files.notExists(file)) {
        Files.createFile(file, ownersAlone(directory, "rw-------"));
      }
      return file;
    } catch (FileAlreadyExistsException e) {
      return alreadyThere(file, e);
    } catch (IOException e) {
      throw new StoreException(
          Trouble.READ_ONLY,
          file + " cannot be created (" + e + "); choose a directory that you may write to",
          e);
    }
  }

  /** Another program created the file at the same moment, or something else is in the way. */
  private static Path alreadyThere(Path file, FileAlreadyExistsException e) {
    if (Files.isRegularFile(file)) {
      return file;
    }
    throw new StoreException(
        Trouble.OTHER,
        e.getFile() + " is in the way of the store " + file + "; choose another directory",
        e);
  }

  private static FileAttribute<?>[] ownersAlone(Path where, String permissions) {
    if (!where.getFileSystem().supportedFileAttributeViews().contains("posix")) {
      return new FileAttribute<?>[0];
    }
    Set<PosixFilePermission> set = PosixFilePermissions.fromString(permissions);
    return new FileAttribute<?>[] {PosixFilePermissions.asFileAttribute(set)};
  }

  /** The file of a store that must exist. */
  static Path existing(Path directory) {
    Path file = in(directory);
    if (!Files.exists(file)) {
      throw new StoreException(
          Trouble.MISSING,
          "no store at " + file + "; record something first, or name its directory");
    }
    return file;
  }
}
