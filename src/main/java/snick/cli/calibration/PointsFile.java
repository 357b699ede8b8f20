package snick.cli.calibration;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import snick.cli.terminal.CsvTable;
import snick.cli.terminal.Refusal;
import snick.force.fit.PointsFit;
import snick.force.reading.Direction;

/**
 * Calibration points in a file: {@code load,reading}, optionally {@code run,direction,u_load}. Rows
 * of direction {@code hold} are for creep and no points of the curve.
 */
final class PointsFile {
  private static final List<String> NEEDED = List.of("load", "reading");
  private static final String HOLD = "hold";
  private static final int MOST_RUNS = 1000;

  private PointsFile() {}

  /** The points of {@code file}, in order. */
  static List<PointsFit.Point> read(String file) {
    List<CsvTable.Row> rows =
        CsvTable.read(file, NEEDED).rows().stream().filter(row -> !isHold(row)).toList();
    List<PointsFit.Point> points = rows.stream().map(PointsFile::point).toList();
    requireTwoLoads(rows);
    return points;
  }

  /** One load, however often it was read, says nothing of the curve's form. */
  static void requireTwoLoads(List<CsvTable.Row> rows) {
    Set<Double> loads = new HashSet<>();
    rows.forEach(row -> loads.add(row.required("load")));
    loads.remove(0.0);
    if (loads.size() == 1) {
      CsvTable.Row last = rows.get(rows.size() - 1);
      throw last.refusal(
          "load " + last.text("load") + " is the only one in " + rows.size() + " rows",
          "add readings at other loads; five over the range are usual");
    }
  }

  /** Whether a row is a reading of a load left resting. */
  static boolean isHold(CsvTable.Row row) {
    return row.text("direction").equalsIgnoreCase(HOLD);
  }

  private static PointsFit.Point point(CsvTable.Row row) {
    run(row);
    direction(row);
    return Refusal.ifNotAccepted(
        () ->
            new PointsFit.Point(
                row.required("load"), row.required("reading"), row.number("u_load")),
        why -> row.refusal(why, "correct the line or take it out"));
  }

  /** Number of the row's run; 1 if none is given. */
  static int run(CsvTable.Row row) {
    double run = row.number("run").orElse(1);
    if (!(run >= 1 && run <= MOST_RUNS && run == Math.rint(run))) {
      throw row.refusal(
          "run " + row.text("run") + " is not a whole number from 1 to " + MOST_RUNS,
          "number the runs 1, 2, 3");
    }
    return (int) run;
  }

  /** Direction of the row; up if none is given. */
  static Direction direction(CsvTable.Row row) {
    String word = row.text("direction");
    return Refusal.ifNotAccepted(
        () -> word.isEmpty() ? Direction.UP : Direction.named(word),
        why -> row.refusal(why, "write up, down or hold, or leave it empty"));
  }
}
