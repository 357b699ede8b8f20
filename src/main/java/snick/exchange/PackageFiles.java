package snick.exchange;

import java.util.List;
import java.util.Set;

/** The files of a package, in the order in which they are listed and zipped. */
final class PackageFiles {
  /** The format that is written. */
  static final int FORMAT = 2;

  /** Format 1 had no history: neither earlier results nor what corrections replaced. */
  static final int WITHOUT_HISTORY = 1;

  /** Formats that are read. */
  static final Set<Long> FORMATS = Set.of((long) WITHOUT_HISTORY, (long) FORMAT);

  static final String DESCRIPTOR = "datapackage.json";
  static final String README = "README.md";

  /** Every file but the descriptor. */
  static final List<String> DESCRIBED =
      List.of(
          README,
          Table.CUTS.file(),
          Table.TRACES.file(),
          Table.GAPS.file(),
          Table.OVERRANGE.file(),
          Table.HISTORY.file(),
          RigJson.FILE,
          CalibrationJson.FILE,
          JournalJson.FILE);

  private PackageFiles() {}

  /** Every file but the descriptor in a package of a format that is read. */
  static List<String> described(long format) {
    return format == WITHOUT_HISTORY
        ? DESCRIBED.stream().filter(file -> !file.equals(Table.HISTORY.file())).toList()
        : DESCRIBED;
  }
}
