package snick.store.table;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import snick.force.budget.BudgetTerm;
import snick.force.budget.Calibration;
import snick.force.fit.CalibrationCurve;
import snick.force.mass.Distribution;
import snick.force.reading.RigSetting;
import snick.quantity.Force;
import snick.quantity.SampleRate;
import snick.store.database.Database;
import snick.store.database.Row;
import snick.store.record.StoredCalibration;

/** Calibrations as rows. */
public final class CalibrationTable {
  private final Database database;

  public CalibrationTable(Database database) {
    this.database = database;
  }

  public static long numberOf(Database database, String id) {
    return database
        .query("SELECT number FROM calibration WHERE id = ?")
        .with(id)
        .first(row -> row.whole("number"))
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "calibration " + id + " is not in the store; add it first"));
  }

  /** Adds it, unless the same is there already. */
  public void add(Calibration calibration, Optional<String> document, Instant createdAt) {
    Optional<StoredCalibration> there = find(calibration.id());
    if (there.isEmpty()) {
      insert(calibration, document, createdAt);
    } else if (!there.get().calibration().equals(calibration)) {
      throw new IllegalArgumentException(
          "the store has another calibration " + calibration.id() + "; give this one another id");
    }
  }

  private void insert(Calibration calibration, Optional<String> document, Instant createdAt) {
    Optional<RigSetting> rig = calibration.boundTo();
    long number =
        database
            .query(
                "INSERT INTO calibration (id, device_id, gain, nominal_rate_hz, polarity,"
                    + " made_utc_ns, valid_for_ns, degrees_of_freedom, from_n, to_n, basis,"
                    + " document, created_at_utc_ns)"
                    + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")
            .with(
                calibration.id(),
                rig.map(RigSetting::deviceId),
                rig.map(RigSetting::gain),
                rig.map(r -> r.nominalRate().hertz()),
                rig.map(RigSetting::polarity),
                calibration.made(),
                calibration.validFor().map(CalibrationTable::nanos),
                calibration.curve().degreesOfFreedom(),
                calibration.range().from().newtons(),
                calibration.range().to().newtons(),
                calibration.basis(),
                document,
                createdAt)
            .insertedId();
    insertCurve(number, calibration.curve());
    insertTerms(number, calibration.terms());
  }

  private static long nanos(Duration duration) {
    try {
      return duration.toNanos();
    } catch (ArithmeticException e) {
      throw new IllegalArgumentException(
          "validity period " + duration + " is over 292 years; leave it out instead", e);
    }
  }

  private void insertCurve(long number, CalibrationCurve curve) {
    double[] coefficients = curve.coefficients();
    double[][] covariance = curve.covariance();
    for (int i = 0; i < coefficients.length; i++) {
      database
          .query("INSERT INTO calibration_coefficient VALUES (NULL, ?, ?, ?)")
          .with(number, i, coefficients[i])
          .change();
      for (int j = 0; j < coefficients.length; j++) {
        database
            .query("INSERT INTO calibration_covariance VALUES (NULL, ?, ?, ?, ?)")
            .with(number, i, j, covariance[i][j])
            .change();
      }
    }
  }

  private void insertTerms(long number, List<BudgetTerm> terms) {
    for (int i = 0; i < terms.size(); i++) {
      BudgetTerm term = terms.get(i);
      database
          .query("INSERT INTO calibration_term VALUES (NULL, ?, ?, ?, ?, ?, ?, ?, ?)")
          .with(
              number,
              i,
              term.source().word(),
              term.distribution().word(),
              term.absolute().newtons(),
              term.relative(),
              term.degreesOfFreedom(),
              term.basis())
          .change();
    }
  }

  public Optional<StoredCalibration> find(String id) {
    return database.query("SELECT * FROM calibration WHERE id = ?").with(id).first(this::map);
  }

  /** One's own stored last for the device, else one's own stored last for any. */
  public Optional<StoredCalibration> current(String deviceId) {
    return database
        .query(
            "SELECT * FROM calibration WHERE (device_id = ? OR device_id IS NULL)"
                + " AND number NOT IN (SELECT calibration FROM calibration_origin)"
                + " ORDER BY device_id IS NULL, number DESC LIMIT 1")
        .with(deviceId)
        .first(this::map);
  }

  public List<StoredCalibration> all() {
    return database.query("SELECT * FROM calibration ORDER BY number").list(this::map);
  }

  private StoredCalibration map(Row row) {
    long number = row.whole("number");
    Calibration calibration =
        new Calibration(
            row.text("id"),
            row.optionalText("device_id").map(id -> setting(id, row)),
            row.instant("made_utc_ns"),
            row.optionalWhole("valid_for_ns").stream().mapToObj(Duration::ofNanos).findFirst(),
            curve(number, row.real("degrees_of_freedom")),
            ForceTable.range(row),
            terms(number),
            row.text("basis"));
    return new StoredCalibration(
        number, row.instant("created_at_utc_ns"), calibration, row.optionalText("document"));
  }

  private static RigSetting setting(String deviceId, Row row) {
    return new RigSetting(
        deviceId,
        row.integer("gain"),
        new SampleRate(row.real("nominal_rate_hz")),
        row.integer("polarity"));
  }

  private CalibrationCurve curve(long number, double degreesOfFreedom) {
    double[] coefficients =
        values(
            "SELECT value FROM calibration_coefficient WHERE calibration = ? ORDER BY power",
            number);
    double[] flat =
        values(
            "SELECT value FROM calibration_covariance WHERE calibration = ?"
                + " ORDER BY power, other_power",
            number);
    int n = coefficients.length;
    double[][] covariance = new double[n][n];
    for (int i = 0; i < n * n; i++) {
      covariance[i / n][i % n] = flat[i];
    }
    return new CalibrationCurve(coefficients, covariance, degreesOfFreedom);
  }

  private double[] values(String sql, long number) {
    return database.query(sql).with(number).list(row -> row.real("value")).stream()
        .mapToDouble(Double::doubleValue)
        .toArray();
  }

  private List<BudgetTerm> terms(long number) {
    return database
        .query("SELECT * FROM calibration_term WHERE calibration = ? ORDER BY position")
        .with(number)
        .list(
            row ->
                new BudgetTerm(
                    row.word("source", BudgetTerm.Source.class),
                    row.word("distribution", Distribution.class),
                    Force.ofNewtons(row.real("absolute_n")),
                    row.real("relative"),
                    row.real("degrees_of_freedom"),
                    row.text("basis")));
  }
}
