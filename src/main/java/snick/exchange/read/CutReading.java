package snick.exchange.read;

import java.util.Optional;
import java.util.OptionalInt;
import snick.cut.Cut;
import snick.cut.Trace;
import snick.exchange.derive.StatedCut;
import snick.exchange.table.CsvRows;
import snick.exchange.table.Table;

/** Reads the rows of {@code cuts.csv}, each with its rows of {@code history.csv}. */
final class CutReading {
  private final CsvRows rows;
  private final PackageContents contents;
  private final DerivedReading derived;
  private final HistoryReading history;

  CutReading(CsvRows rows, HistoryReading history, PackageContents contents) {
    this.rows = rows;
    this.contents = contents;
    this.derived = new DerivedReading(rows, Table.CUTS, contents);
    this.history = history;
  }

  private static int at(String column) {
    return Table.CUTS.index(column);
  }

  /** The cut of the current row, which must have {@code number}. */
  StatedCut with(int number, Traces traces) {
    if (rows.whole(at("cut")) != number) {
      throw rows.refused("cut is " + rows.whole(at("cut")) + ", not " + number);
    }
    Trace trace = traces.next(number);
    if (rows.whole(at("samples")) != trace.size()) {
      throw rows.refused(
          "samples is " + rows.whole(at("samples")) + ", traces.csv has " + trace.size());
    }
    try {
      return cut(number, trace);
    } catch (IllegalArgumentException e) {
      throw rows.refused(e.getMessage());
    }
  }

  private StatedCut cut(int number, Trace trace) {
    OptionalInt calibration = derived.calibration();
    Cut stated = derived.cut(rows.integer(at("number")), trace);
    return new StatedCut(
        number,
        derived.reference("recording", contents.recordings()).orElseThrow(),
        rows.instant(at("occurred_at")),
        stated,
        derived.detectorVersion(),
        calibration,
        calibration.isPresent()
            ? Optional.of(derived.force(calibration.getAsInt()))
            : Optional.empty(),
        contents.missing().of(number),
        place(),
        Boolean.parseBoolean(rows.text(at("set_aside"))),
        derived.reference("source", contents.sources()).orElse(0),
        history.of(number, stated));
  }

  private Optional<StatedCut.StatedPlace> place() {
    OptionalInt session = derived.reference("session", contents.journal().sessions());
    if (session.isEmpty()) {
      return Optional.empty();
    }
    int stages = contents.journal().sessions().get(session.getAsInt() - 1).stages().size();
    int stage = rows.empty(at("stage")) ? 0 : rows.integer(at("stage"));
    if (!(stage >= 1 && stage <= stages)) {
      throw rows.refused("stage " + stage + " is not in session " + session.getAsInt());
    }
    return Optional.of(
        new StatedCut.StatedPlace(session.getAsInt(), stage, rows.real(at("place_mm"))));
  }
}
