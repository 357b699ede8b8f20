package snick.cli.report;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Locale;
import java.util.function.Supplier;
import picocli.CommandLine.Option;
import snick.cli.terminal.NewFile;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;
import snick.report.Picture;

/** Where a picture goes: {@code -o FILE}, its form by the ending. */
public final class PictureFile {
  @Option(
      names = {"-o", "--output"},
      paramLabel = "FILE",
      required = true,
      description = "New file that ends in .svg or .png.")
  private Path file;

  /** Draws and writes; what cannot be written is refused. */
  void write(PrintWriter out, Supplier<Picture> drawing) {
    Picture picture = write(file, drawing);
    out.println(file + ": " + PlainText.inert(picture.title()) + ".");
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
