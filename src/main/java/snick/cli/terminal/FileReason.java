package snick.cli.terminal;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;

/** Why a file could not be read or written, in words: the library's message is often its name. */
public final class FileReason {
  private FileReason() {}

  /** The reason, without the file's name if the system gives one. */
  public static String of(IOException e) {
    if (e instanceof AccessDeniedException) {
      return "you have no permission";
    }
    if (e instanceof NoSuchFileException) {
      return "there is no such file";
    }
    boolean told = e instanceof FileSystemException f && f.getReason() != null;
    return told ? ((FileSystemException) e).getReason() : String.valueOf(e.getMessage());
  }
}
