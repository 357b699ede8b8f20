package snick.exchange.read;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import snick.cut.Cut;
import snick.exchange.table.CsvRows;
import snick.exchange.table.Table;
import snick.store.record.EarlierResult;

/** Reads {@code history.csv}: what was derived from one cut after the other before what stands. */
final class HistoryReading {
  private static final int CUT = Table.HISTORY.index("cut");
  private static final int ROW = Table.HISTORY.index("row");
  private static final int RESULT = Table.HISTORY.index("result");
  private static final int STANDS = Table.HISTORY.index("stands");
  private static final int DERIVED_AT = Table.HISTORY.index("derived_at");
  private static final int FORCE_DERIVED_AT = Table.HISTORY.index("force_derived_at");
  private static final int MOST_ROWS = 10_000;

  private final CsvRows rows;
  private final DerivedReading derived;

  HistoryReading(CsvRows rows, PackageContents contents) {
    this.rows = rows;
    this.derived = new DerivedReading(rows, Table.HISTORY, contents);
  }

  /** What was derived from the cut with this number before {@code stated}; its rows come next. */
  List<EarlierResult> of(int cut, Cut stated) {
    List<EarlierResult> found = new ArrayList<>();
    while (rows.present() && rows.integer(CUT) == cut) {
      if (rows.whole(ROW) != found.size() + 1 || found.size() == MOST_ROWS) {
        throw rows.refused("row is " + rows.whole(ROW) + ", not " + (found.size() + 1));
      }
      EarlierResult earlier = earlier(stated);
      requireAfter(found, earlier);
      found.add(earlier);
      rows.advance();
    }
    return found;
  }

  private EarlierResult earlier(Cut stated) {
    OptionalInt calibration = derived.calibration();
    return new EarlierResult(
        rows.integer(RESULT),
        rows.text(STANDS).equals("true"),
        derived.detectorVersion(),
        rows.instant(DERIVED_AT),
        derived.cut(stated.number(), stated.trace()),
        calibration.isPresent() ? Optional.of(force(calibration.getAsInt())) : Optional.empty());
  }

  private EarlierResult.EarlierForce force(int calibration) {
    if (rows.empty(FORCE_DERIVED_AT)) {
      throw rows.refused("it has a force, and force_derived_at is empty");
    }
    return new EarlierResult.EarlierForce(
        rows.instant(FORCE_DERIVED_AT), derived.force(calibration));
  }

  private void requireAfter(List<EarlierResult> found, EarlierResult next) {
    int last = found.isEmpty() ? 0 : found.get(found.size() - 1).number();
    boolean again = next.number() == last;
    boolean afterStanding = !found.isEmpty() && found.get(found.size() - 1).stands() && !again;
    if (!(again || next.number() == last + 1) || afterStanding) {
      throw rows.refused("result " + next.number() + " does not follow result " + last);
    }
  }
}
