package snick.store.table;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import snick.force.budget.DerivedForce;
import snick.force.fit.ForceRange;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.store.database.Database;
import snick.store.database.Row;
import snick.store.record.CutForce;
import snick.store.record.StoredForce;

/** Forces of results as rows. */
public final class ForceTable {
  /** The columns of {@link #map}, of tables named f (cut_force) and k (its calibration). */
  static final String COLUMNS =
      "f.id AS force_id, coalesce(f.result, 0) AS force_result, f.created_at_utc_ns AS force_created_at_utc_ns,"
          + " f.in_range, f.force_n, f.u_n, f.degrees_of_freedom, f.observed_max_n,"
          + " k.id AS calibration_id, k.from_n, k.to_n";

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
    DerivedForce estimate = force.estimate();
    if (estimate instanceof DerivedForce.Inside inside) {
      OptionalDouble degreesOfFreedom = OptionalDouble.of(inside.degreesOfFreedom());
      insert(
          new Line(cutId, later, inside.calibrationId(), inside.force(), degreesOfFreedom),
          force.observedMax(),
          createdAt);
    } else if (estimate instanceof DerivedForce.Outside outside) {
      insert(
          new Line(cutId, later, outside.calibrationId(), outside.force(), OptionalDouble.empty()),
          force.observedMax(),
          createdAt);
    }
  }

  private record Line(
      long cutId,
      OptionalLong later,
      String calibrationId,
      MeasuredForce force,
      OptionalDouble degreesOfFreedom) {}

  private void insert(Line line, Force observedMax, Instant createdAt) {
    database
        .query(
            "INSERT INTO cut_force (cut, result, calibration, created_at_utc_ns, in_range, force_n,"
                + " u_n, degrees_of_freedom, observed_max_n) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)")
        .whole(line.cutId())
        .whole(line.later())
        .whole(CalibrationTable.numberOf(database, line.calibrationId()))
        .instant(createdAt)
        .truth(line.degreesOfFreedom().isPresent())
        .real(line.force().value().newtons())
        .real(line.force().standardUncertainty().newtons())
        .real(line.degreesOfFreedom())
        .real(observedMax.newtons())
        .change();
  }

  public List<StoredForce> ofCut(long cutId) {
    return database
        .query(
            "SELECT "
                + COLUMNS
                + " FROM cut_force f JOIN calibration k ON k.number = f.calibration"
                + " WHERE f.cut = ? ORDER BY f.id")
        .whole(cutId)
        .list(ForceTable::map);
  }

  /** The force of a row that may have none. */
  static Optional<StoredForce> optional(Row row) {
    return row.optionalWhole("force_id").isPresent() ? Optional.of(map(row)) : Optional.empty();
  }

  private static StoredForce map(Row row) {
    CutForce force = new CutForce(estimate(row), Force.ofNewtons(row.real("observed_max_n")));
    return new StoredForce(
        row.whole("force_id"),
        row.whole("force_result"),
        row.instant("force_created_at_utc_ns"),
        force);
  }

  static DerivedForce estimate(Row row) {
    String calibrationId = row.text("calibration_id");
    MeasuredForce force = MeasuredForce.ofNewtons(row.real("force_n"), row.real("u_n"));
    return row.truth("in_range")
        ? new DerivedForce.Inside(calibrationId, force, row.real("degrees_of_freedom"))
        : new DerivedForce.Outside(calibrationId, force, range(row));
  }

  static ForceRange range(Row row) {
    return new ForceRange(Force.ofNewtons(row.real("from_n")), Force.ofNewtons(row.real("to_n")));
  }
}
