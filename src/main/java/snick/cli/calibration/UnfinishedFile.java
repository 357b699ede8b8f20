package snick.cli.calibration;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import snick.cli.terminal.FileReason;
import snick.cli.terminal.Refusal;
import snick.report.sheet.UnfinishedSheet;

/** Where a guided calibration that is on its way is kept: one file a rig, beside the store. */
final class UnfinishedFile {
  private final Path file;

  /** The file of the rig {@code deviceId}. */
  UnfinishedFile(Path dataDirectory, String deviceId) {
    file = UnfinishedSheet.file(dataDirectory, deviceId);
  }

  Path path() {
    return file;
  }

  /** What is kept; empty if nothing is. */
  Optional<UnfinishedSheet> read() {
    if (!Files.exists(file)) {
      return Optional.empty();
    }
    try {
      return Optional.of(UnfinishedSheet.read(file));
    } catch (IOException | RuntimeException e) {
      throw Refusal.badInput(
          file + " cannot be used: " + e.getMessage() + "; begin anew with --fresh");
    }
  }

  /** Whether a file is there, readable or not. */
  boolean isThere() {
    return Files.exists(file);
  }

  void write(UnfinishedSheet sheet) {
    try {
      sheet.write(file);
    } catch (IOException e) {
      throw Refusal.failed(file + " cannot be written: " + FileReason.of(e), e);
    }
  }

  void delete() {
    try {
      Files.deleteIfExists(file);
    } catch (IOException e) {
      throw Refusal.failed(file + " cannot be removed: " + FileReason.of(e), e);
    }
  }
}
