package snick.cli.terminal;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

/**
 * The process's standard output, which remembers why it could not be written: the writers above it
 * swallow that. Any thread may write.
 */
public final class StandardOutput extends OutputStream {
  private final OutputStream descriptor = new FileOutputStream(FileDescriptor.out);
  private volatile IOException firstFailure;

  @Override
  public void write(int oneByte) throws IOException {
    write(new byte[] {(byte) oneByte}, 0, 1);
  }

  @Override
  public synchronized void write(byte[] bytes, int from, int count) throws IOException {
    try {
      descriptor.write(bytes, from, count);
    } catch (IOException e) {
      firstFailure = firstFailure == null ? e : firstFailure;
      throw e;
    }
  }

  /** Why something that was printed is lost; empty if nothing is, or if its reader went away. */
  public Optional<String> loss() {
    return Optional.ofNullable(firstFailure).filter(e -> !readByProgram()).map(FileReason::of);
  }

  /**
   * A pipe fails only when nobody reads it any more. The system's words for it differ by locale.
   */
  private static boolean readByProgram() {
    try {
      return Files.readSymbolicLink(Path.of("/proc/self/fd/1")).toString().startsWith("pipe:");
    } catch (IOException | UnsupportedOperationException e) {
      return false;
    }
  }
}
