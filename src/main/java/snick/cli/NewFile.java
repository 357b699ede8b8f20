package snick.cli;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/** A file that must not be there yet. */
final class NewFile {
  private NewFile() {}

  /** Writes all of it, or refuses and leaves what was there alone. */
  static void write(Path file, byte[] content) {
    try {
      Files.write(file, content, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
    } catch (FileAlreadyExistsException e) {
      throw Refusal.badInput(file + " is there already and was left alone; choose another name");
    } catch (NoSuchFileException e) {
      throw Refusal.badInput("no folder " + file.toAbsolutePath().getParent() + "; make it first");
    } catch (IOException e) {
      throw Refusal.failed(file + " cannot be written: " + e.getMessage(), e);
    }
  }
}
