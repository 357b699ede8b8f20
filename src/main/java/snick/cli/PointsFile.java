package snick.cli;

import java.util.List;
import snick.force.Direction;
import snick.force.PointsFit;

/** Calibration points in a file: {@code load,reading}, optionally {@code run,direction,u_load}. */
final class PointsFile {
  private static final List<String> NEEDED = List.of("load", "reading");
  private static final int MOST_RUNS = 1000;

  private PointsFile() {}

  /** The points of {@code file}, in order. */
  static List<PointsFit.Point> read(String file) {
    return CsvTable.read(file, NEEDED).rows().stream().map(PointsFile::point).toList();
  }

  private static PointsFit.Point point(CsvTable.Row row) {
    requireRun(row);
    requireDirection(row);
    try {
      return new PointsFit.Point(
          row.required("load"), row.required("reading"), row.number("u_load"));
    } catch (IllegalArgumentException e) {
      throw row.refusal(e.getMessage(), "correct the line or take it out");
    }
  }

  private static void requireRun(CsvTable.Row row) {
    row.number("run")
        .ifPresent(
            run -> {
              if (!(run >= 1 && run <= MOST_RUNS && run == Math.rint(run))) {
                throw row.refusal(
                    "run " + row.text("run") + " is not a whole number from 1 to " + MOST_RUNS,
                    "number the runs 1, 2, 3");
              }
            });
  }

  private static void requireDirection(CsvTable.Row row) {
    if (!row.text("direction").isEmpty()) {
      try {
        Direction.named(row.text("direction"));
      } catch (IllegalArgumentException e) {
        throw row.refusal(e.getMessage(), "write up or down, or leave it empty");
      }
    }
  }
}
