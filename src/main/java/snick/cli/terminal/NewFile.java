package snick.cli.terminal;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import snick.exchange.write.Atomically;

/** A file that must not be there yet, and has its name only when it is whole. */
public final class NewFile {
  private NewFile() {}

  /** Writes all of it, or refuses and leaves what was there alone. */
  public static void write(Path file, byte[] content) {
    try {
      Atomically.make(file, workshop -> Files.write(workshop.resolve("whole"), content));
    } catch (IOException e) {
      throw refusal(file, e);
    }
  }

  /** Why it could not be written. */
  public static Refusal refusal(Path file, IOException e) {
    if (e instanceof FileAlreadyExistsException) {
      return Refusal.badInput(file + " is there already and was left alone; choose another name");
    }
    return e instanceof NoSuchFileException
        ? Refusal.badInput("no folder " + file.toAbsolutePath().getParent() + "; make it first")
        : Refusal.failed(file + " cannot be written: " + FileReason.of(e), e);
  }
}
