package snick.exchange;

import java.util.List;

/** The files of a package, in the order in which they are listed and zipped. */
final class PackageFiles {
  /** The format that is written and read. */
  static final int FORMAT = 1;

  static final String DESCRIPTOR = "datapackage.json";
  static final String README = "README.md";

  /** Every file but the descriptor. */
  static final List<String> DESCRIBED =
      List.of(
          README,
          Table.CUTS.file(),
          Table.TRACES.file(),
          Table.BEFORE.file(),
          Table.GAPS.file(),
          Table.OVERRANGE.file(),
          Table.HISTORY.file(),
          RigJson.FILE,
          CalibrationJson.FILE,
          JournalJson.FILE);

  private PackageFiles() {}
}
