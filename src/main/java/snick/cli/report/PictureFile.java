package snick.cli.report;

import java.nio.file.Path;
import java.util.Locale;
import java.util.function.Function;
import java.util.function.Supplier;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import snick.cli.option.DataDirectory;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.NewFile;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;
import snick.report.plot.Picture;
import snick.store.StoreReader;

/** Where a picture goes: {@code -o FILE}, its form by the ending. */
public final class PictureFile {
  @Option(
      names = {"-o", "--output"},
      paramLabel = "FILE",
      required = true,
      description = "New file that ends in .svg or .png.")
  private Path file;

  /**
   * Draws from what is stored, writes and says so in the command's output.
   *
   * @return the exit status, see {@link ExitCode}
   */
  int draw(CommandSpec command, DataDirectory data, Function<StoreReader, Picture> drawing) {
    try (StoreReader store = OpenedStore.toRead(data)) {
      Picture picture = write(file, () -> drawing.apply(store));
      command.commandLine().getOut().println(PlainText.inert(file + ": " + picture.title() + "."));
    }
    return ExitCode.OK;
  }

  /** Draws and writes to a new file that ends in .svg or .png. */
  public static Picture write(Path file, Supplier<Picture> drawing) {
    boolean svg = endsIn(file, ".svg");
    if (!svg && !endsIn(file, ".png")) {
      throw Refusal.usage(file + " ends neither in .svg nor in .png");
    }
    Picture picture = drawing.get();
    NewFile.write(file, svg ? picture.svg() : picture.png());
    return picture;
  }

  private static boolean endsIn(Path file, String ending) {
    return file.toString().toLowerCase(Locale.ROOT).endsWith(ending);
  }
}
