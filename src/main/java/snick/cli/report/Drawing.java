package snick.cli.report;

import java.nio.file.Path;
import picocli.CommandLine.Option;
import snick.cli.option.ReadingCommand;
import snick.cli.terminal.PlainText;
import snick.report.plot.Picture;
import snick.store.StoreReader;

/** A command that draws one picture of what is stored. */
abstract class Drawing extends ReadingCommand {
  @Option(
      names = {"-o", "--output"},
      paramLabel = "FILE",
      required = true,
      description = "New file that ends in .svg or .png.")
  private Path file;

  /** What is to be drawn. */
  abstract Picture picture(StoreReader store);

  @Override
  protected final void read(StoreReader store) {
    Picture picture = PictureFile.write(file, () -> picture(store));
    println(PlainText.inert(file + ": " + picture.title() + "."));
  }
}
