package snick.exchange.write;

import java.util.List;
import java.util.Optional;
import snick.exchange.json.CalibrationJson;
import snick.exchange.json.JournalJson;
import snick.exchange.json.RigJson;
import snick.exchange.table.PackageTable;
import snick.journal.Photo;

/** The files of a package, in the order in which they are listed and zipped. */
public final class PackageFiles {
  /** The format that is written and read. */
  public static final int FORMAT = 1;

  public static final String DESCRIPTOR = "datapackage.json";
  public static final String README = "README.md";

  /** Every file but the descriptor. */
  public static final List<String> DESCRIBED =
      List.of(
          README,
          PackageTable.CUTS.file(),
          PackageTable.TRACES.file(),
          PackageTable.BEFORE.file(),
          PackageTable.GAPS.file(),
          PackageTable.OVERRANGE.file(),
          PackageTable.HISTORY.file(),
          RigJson.FILE,
          CalibrationJson.FILE,
          JournalJson.FILE);

  /** Photos at most in a package. */
  public static final int MOST_PHOTOS = 1_000;

  private static final String PHOTOS = "photos/";

  private PackageFiles() {}

  /** Where a photo lies in a package. */
  public static String of(Photo photo) {
    return PHOTOS + photo.name();
  }

  /** The photo in the file of this name; empty if it is another file. */
  public static Optional<Photo> photo(String file) {
    return file.startsWith(PHOTOS)
        ? Photo.named(file.substring(PHOTOS.length()))
        : Optional.empty();
  }

  /** Whether a package may have a file of this name. */
  public static boolean knows(String file) {
    return DESCRIBED.contains(file) || file.equals(DESCRIPTOR) || photo(file).isPresent();
  }
}
