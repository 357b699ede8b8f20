package snick.store.table;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Collectors;
import snick.force.budget.DerivedForce;
import snick.force.fit.ForceRange;
import snick.quantity.Force;
import snick.store.database.Database;
import snick.store.database.Query;
import snick.store.database.Row;
import snick.store.record.CutForce;
import snick.store.record.StoredForce;

/** Forces of results as rows. */
public final class ForceTable {
  /** The columns of {@link #map}, of tables named f (cut_force) and k (its calibration). */
  static final String COLUMNS =
      "coalesce(f.result, 0) AS force_result, f.created_at_utc_ns AS force_created_at_utc_ns, "
          + Query.columns(CutForce.ATTRIBUTES).stream()
              .map("f."::concat)
              .collect(Collectors.joining(", "))
          + ", k.id AS calibration_id, k.from_n, k.to_n";

  private static final String INSERTION =
      "INSERT INTO cut_force (cut, result, calibration, created_at_utc_ns, "
          + String.join(", ", Query.columns(CutForce.ATTRIBUTES))
          + ") VALUES (?, ?, ?, ?"
          + ", ?".repeat(CutForce.ATTRIBUTES.size())
          + ")";

  private final Database database;

  public ForceTable(Database database) {
    this.database = database;
  }

  /**
   * Adds what there is to add: nothing if uncalibrated.
   *
   * @param later the later result it is of; empty for the first of the cut
   */
  public void add(long cutId, OptionalLong later, CutForce force, Instant createdAt) {
    force.estimate().calibrationUsed().ifPresent(id -> add(cutId, later, id, force, createdAt));
  }

  private void add(
      long cutId, OptionalLong later, String calibrationId, CutForce force, Instant createdAt) {
    database
        .query(INSERTION)
        .with(cutId, later, CalibrationTable.numberOf(database, calibrationId), createdAt)
        .values(CutForce.ATTRIBUTES, force)
        .change();
  }

  public List<StoredForce> ofCut(long cutId) {
    return database
        .query(
            "SELECT "
                + COLUMNS
                + " FROM cut_force f JOIN calibration k ON k.number = f.calibration"
                + " WHERE f.cut = ? ORDER BY f.id")
        .with(cutId)
        .list(ForceTable::map);
  }

  /** The force of a row that may have none. */
  static Optional<CutForce> optional(Row row) {
    return row.optionalText("calibration_id").map(id -> CutForce.read(row, id, range(row)));
  }

  private static StoredForce map(Row row) {
    return new StoredForce(
        row.whole("force_result"),
        row.instant("force_created_at_utc_ns"),
        optional(row).orElseThrow());
  }

  static DerivedForce estimate(Row row) {
    return CutForce.estimate(row, row.text("calibration_id"), range(row));
  }

  static ForceRange range(Row row) {
    return new ForceRange(Force.ofNewtons(row.real("from_n")), Force.ofNewtons(row.real("to_n")));
  }
}
