package snick.cli.report;

import java.nio.file.Path;
import java.util.Locale;
import java.util.function.Supplier;
import snick.cli.terminal.NewFile;
import snick.cli.terminal.Refusal;
import snick.report.plot.Picture;

/** A picture as a file, its form by the ending of its name. */
public final class PictureFile {
  private PictureFile() {}

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
