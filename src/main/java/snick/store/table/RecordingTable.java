package snick.store.table;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import snick.quantity.SampleRate;
import snick.store.database.Database;
import snick.store.database.Row;
import snick.store.record.HostClock;
import snick.store.record.Recording;
import snick.store.record.Rig;
import snick.store.record.StoredRecording;

/** Rigs and their recordings as rows. */
public final class RecordingTable {
  private static final String SELECT =
      "SELECT r.id, g.device_id, r.firmware, r.source, r.form, r.started_at_utc_ns, r.gain,"
          + " r.nominal_rate_hz, r.decimals, r.device_zero_utc_ns, r.rate_error_ppm"
          + " FROM recording r JOIN rig g ON g.id = r.rig ";

  private final Database database;

  public RecordingTable(Database database) {
    this.database = database;
  }

  public long add(Recording recording) {
    return database
        .query(
            "INSERT INTO recording (rig, firmware, source, form, started_at_utc_ns, gain,"
                + " nominal_rate_hz, decimals) VALUES (?, ?, ?, ?, ?, ?, ?, ?)")
        .with(
            seen(recording),
            recording.firmware(),
            recording.source(),
            recording.form().word(),
            recording.startedAt(),
            recording.gain(),
            recording.nominalRate().map(SampleRate::hertz),
            recording.decimals())
        .insertedId();
  }

  private long seen(Recording recording) {
    return database
        .query(
            "INSERT INTO rig (device_id, first_seen_utc_ns, last_seen_utc_ns)"
                + " VALUES (?1, ?2, ?2) ON CONFLICT (device_id) DO UPDATE SET"
                + " first_seen_utc_ns = min(first_seen_utc_ns, excluded.first_seen_utc_ns),"
                + " last_seen_utc_ns = max(last_seen_utc_ns, excluded.last_seen_utc_ns)"
                + " RETURNING id")
        .with(recording.deviceId(), recording.startedAt())
        .first(row -> row.whole("id"))
        .orElseThrow();
  }

  public void setClock(long recordingId, HostClock clock) {
    int changed =
        database
            .query("UPDATE recording SET device_zero_utc_ns = ?, rate_error_ppm = ? WHERE id = ?")
            .with(clock.deviceZero(), clock.rateErrorPpm(), recordingId)
            .change();
    if (changed == 0) {
      throw new IllegalArgumentException("no recording " + recordingId);
    }
  }

  public Optional<Long> find(String deviceId, Instant startedAt) {
    return database
        .query(
            "SELECT r.id FROM recording r JOIN rig g ON g.id = r.rig"
                + " WHERE g.device_id = ? AND r.started_at_utc_ns = ?")
        .with(deviceId, startedAt)
        .first(row -> row.whole("id"));
  }

  public Optional<StoredRecording> find(long id) {
    return database.query(SELECT + "WHERE r.id = ?").with(id).first(RecordingTable::map);
  }

  public List<Rig> rigs() {
    return database
        .query(
            "SELECT g.*, (SELECT r.firmware FROM recording r WHERE r.rig = g.id"
                + " ORDER BY r.started_at_utc_ns DESC, r.id DESC LIMIT 1) AS firmware"
                + " FROM rig g ORDER BY g.id")
        .list(
            row ->
                new Rig(
                    row.text("device_id"),
                    row.text("firmware"),
                    row.instant("first_seen_utc_ns"),
                    row.instant("last_seen_utc_ns")));
  }

  private static StoredRecording map(Row row) {
    Recording recording =
        new Recording(
            row.text("device_id"),
            row.text("firmware"),
            row.text("source"),
            row.word("form", Recording.Form.class),
            row.instant("started_at_utc_ns"),
            row.optionalInteger("gain"),
            row.optionalReal("nominal_rate_hz").stream().mapToObj(SampleRate::new).findFirst(),
            row.integer("decimals"));
    Optional<HostClock> clock =
        row.optionalInstant("device_zero_utc_ns")
            .map(zero -> new HostClock(zero, row.real("rate_error_ppm")));
    return new StoredRecording(row.whole("id"), recording, clock);
  }
}
