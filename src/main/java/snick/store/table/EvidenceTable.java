package snick.store.table;

import java.util.List;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.store.database.Database;
import snick.store.record.Evidence;
import snick.store.record.Verification;

/** Verifications and other evidence about rigs as rows. */
public final class EvidenceTable {
  private final Database database;

  public EvidenceTable(Database database) {
    this.database = database;
  }

  public void add(Verification verification) {
    database
        .query(
            "INSERT INTO verification (device_id, calibration, at_utc_ns, known_n, known_u_n,"
                + " shown_n, shown_u_n, limit_n, document) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)")
        .with(
            verification.deviceId(),
            CalibrationTable.numberOf(database, verification.calibrationId()),
            verification.at(),
            verification.known().value().newtons(),
            verification.known().standardUncertainty().newtons(),
            verification.shown().value().newtons(),
            verification.shown().standardUncertainty().newtons(),
            verification.limit().newtons(),
            verification.document())
        .change();
  }

  /** One's own of a device, oldest first. */
  public List<Verification> verifications(String deviceId) {
    return verifications(
        "v.device_id = ? AND v.calibration NOT IN (SELECT calibration FROM calibration_origin)",
        deviceId);
  }

  /** Those of a calibration, oldest first. */
  public List<Verification> ofCalibration(String calibrationId) {
    return verifications("k.id = ?", calibrationId);
  }

  private List<Verification> verifications(String condition, String value) {
    return database
        .query(
            "SELECT v.*, k.id AS calibration_id FROM verification v JOIN calibration k"
                + " ON k.number = v.calibration WHERE "
                + condition
                + " ORDER BY v.at_utc_ns, v.id")
        .with(value)
        .list(
            row ->
                new Verification(
                    row.text("device_id"),
                    row.text("calibration_id"),
                    row.instant("at_utc_ns"),
                    MeasuredForce.ofNewtons(row.real("known_n"), row.real("known_u_n")),
                    MeasuredForce.ofNewtons(row.real("shown_n"), row.real("shown_u_n")),
                    Force.ofNewtons(row.real("limit_n")),
                    row.text("document")));
  }

  public void add(Evidence evidence) {
    database
        .query("INSERT INTO evidence (device_id, kind, at_utc_ns, document) VALUES (?, ?, ?, ?)")
        .with(evidence.deviceId(), evidence.kind(), evidence.at(), evidence.document())
        .change();
  }

  /** Oldest first. */
  public List<Evidence> evidence(String deviceId, String kind) {
    return database
        .query("SELECT * FROM evidence WHERE device_id = ? AND kind = ? ORDER BY at_utc_ns, id")
        .with(deviceId, kind)
        .list(
            row ->
                new Evidence(
                    row.text("device_id"),
                    row.text("kind"),
                    row.instant("at_utc_ns"),
                    row.text("document")));
  }
}
