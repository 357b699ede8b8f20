package snick.cli.report;

import java.util.function.Function;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import snick.cli.option.DataDirectory;
import snick.cli.option.OpenedStore;
import snick.cli.option.Settings;
import snick.cli.terminal.ExitCode;
import snick.report.Picture;
import snick.store.StoreReader;

/** A picture of what is stored: where the store is and where the picture goes. */
final class StoredPicture {
  @Mixin private DataDirectory data;
  @Mixin private PictureFile file;

  /** What the person has set. */
  Settings settings() {
    return data.settings();
  }

  /**
   * Draws, writes and says so in the command's output.
   *
   * @return the exit status, see {@link ExitCode}
   */
  int draw(CommandSpec command, Function<StoreReader, Picture> drawing) {
    try (StoreReader store = OpenedStore.toRead(data)) {
      file.write(command.commandLine().getOut(), () -> drawing.apply(store));
    }
    return ExitCode.OK;
  }
}
