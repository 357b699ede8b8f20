package snick.exchange.read;

import java.util.Optional;
import java.util.OptionalInt;
import snick.cut.Cut;
import snick.cut.Trace;
import snick.exchange.derive.StatedCut;
import snick.exchange.table.CsvRows;
import snick.force.budget.Calibration;
import snick.store.record.NewCut;

/** Reads the rows of {@code cuts.csv}, each with its rows of {@code history.csv}. */
final class CutReading {
  private final CsvRows rows;
  private final PackageContents contents;
  private final DerivedReading derived;
  private final HistoryReading history;

  CutReading(CsvRows rows, HistoryReading history, PackageContents contents) {
    this.rows = rows;
    this.contents = contents;
    this.derived = new DerivedReading(rows, contents);
    this.history = history;
  }

  /** The cut of the current row, which must have {@code number}. */
  StatedCut with(int number, Traces traces) {
    if (rows.integer("cut") != number) {
      throw rows.refused("cut is " + rows.integer("cut") + ", not " + number);
    }
    Trace trace = traces.next(number);
    if (rows.integer("samples") != trace.size()) {
      throw rows.refused(
          "samples is " + rows.integer("samples") + ", traces.csv has " + trace.size());
    }
    return derived.told(() -> cut(number, trace));
  }

  private StatedCut cut(int number, Trace trace) {
    Optional<Calibration> calibration = derived.calibration();
    Cut found = new Cut(rows.integer("number"), derived.figures(), trace, derived.response());
    NewCut stated =
        NewCut.of(
                derived.reference("recording", contents.recordings()).orElseThrow(),
                rows.instant("occurred_at"),
                found)
            .without(contents.missing().of(number));
    return new StatedCut(
        number,
        calibration.map(derived::force).map(stated::with).orElse(stated),
        derived.detectorVersion(),
        calibration,
        place(),
        rows.truth("set_aside"),
        derived.reference("source", contents.sources()).orElse(0),
        history.of(number));
  }

  private Optional<StatedCut.StatedPlace> place() {
    OptionalInt session = derived.reference("session", contents.journal().sessions());
    if (session.isEmpty()) {
      return Optional.empty();
    }
    int stages = contents.journal().sessions().get(session.getAsInt() - 1).stages().size();
    int stage = rows.text("stage").isEmpty() ? 0 : rows.integer("stage");
    if (!(stage >= 1 && stage <= stages)) {
      throw rows.refused("stage " + stage + " is not in session " + session.getAsInt());
    }
    return Optional.of(
        new StatedCut.StatedPlace(session.getAsInt(), stage, rows.optionalReal("place_mm")));
  }
}
