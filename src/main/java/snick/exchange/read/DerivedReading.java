package snick.exchange.read;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Supplier;
import snick.cut.CutFigures;
import snick.cut.response.Response;
import snick.exchange.table.CsvRows;
import snick.force.budget.Calibration;
import snick.store.record.CutForce;

/** Reads what was derived from a trace: the columns that cuts.csv and history.csv share. */
final class DerivedReading {
  private final CsvRows rows;
  private final PackageContents contents;

  DerivedReading(CsvRows rows, PackageContents contents) {
    this.rows = rows;
    this.contents = contents;
  }

  /** What {@code reading} makes of the row; a value that its type refuses is refused with it. */
  <T> T told(Supplier<T> reading) {
    try {
      return reading.get();
    } catch (IllegalArgumentException e) {
      throw rows.refused(e.getMessage());
    }
  }

  /** The number in a column that names an item of a list; empty if the cell is. */
  OptionalInt reference(String column, List<?> items) {
    if (rows.text(column).isEmpty()) {
      return OptionalInt.empty();
    }
    int number = rows.integer(column);
    if (!(number >= 1 && number <= items.size())) {
      throw rows.refused(column + " " + number + " is not in the package");
    }
    return OptionalInt.of(number);
  }

  CutFigures figures() {
    return told(() -> CutFigures.read(rows));
  }

  Response response() {
    return contents.response(rows.text("response"));
  }

  int detectorVersion() {
    return rows.integer("detector_version");
  }

  /** The calibration that the force was derived with; empty if there is no force. */
  Optional<Calibration> calibration() {
    return reference("calibration", contents.calibrations()).stream()
        .mapToObj(number -> contents.calibrations().get(number - 1).calibration())
        .findFirst();
  }

  /** The stated force. */
  CutForce force(Calibration calibration) {
    return told(() -> CutForce.read(rows, calibration.id(), calibration.range()));
  }
}
