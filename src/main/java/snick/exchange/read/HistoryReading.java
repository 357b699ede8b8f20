package snick.exchange.read;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snick.cut.response.Response;
import snick.exchange.table.CsvRows;
import snick.force.budget.Calibration;
import snick.store.record.Derivation;
import snick.store.record.EarlierResult;
import snick.store.record.StoredForce;

/** Reads {@code history.csv}: what was derived from one cut after the other before what stands. */
final class HistoryReading {
  private static final int MOST_ROWS = 10_000;

  private final CsvRows rows;
  private final DerivedReading derived;

  HistoryReading(CsvRows rows, PackageContents contents) {
    this.rows = rows;
    this.derived = new DerivedReading(rows, contents);
  }

  /** What was derived from the cut with this number before what stands; its rows come next. */
  List<EarlierResult> of(int cut) {
    List<EarlierResult> found = new ArrayList<>();
    while (rows.present() && rows.integer("cut") == cut) {
      if (rows.integer("row") != found.size() + 1 || found.size() == MOST_ROWS) {
        throw rows.refused("row is " + rows.integer("row") + ", not " + (found.size() + 1));
      }
      EarlierResult earlier = earlier();
      requireAfter(found, earlier);
      found.add(earlier);
      rows.advance();
    }
    return found;
  }

  private EarlierResult earlier() {
    return new EarlierResult(
        rows.integer("result"),
        rows.truth("stands"),
        derivation(),
        derived.calibration().map(this::force));
  }

  private Derivation derivation() {
    Response response = derived.response();
    return new Derivation(
        0,
        derived.detectorVersion(),
        rows.instant("derived_at"),
        derived.figures(),
        response.known() ? Optional.of(response.id()) : Optional.empty());
  }

  private StoredForce force(Calibration calibration) {
    if (rows.text("force_derived_at").isEmpty()) {
      throw rows.refused("it has a force, and force_derived_at is empty");
    }
    return new StoredForce(0, rows.instant("force_derived_at"), derived.force(calibration));
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
