package snick.store.table;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.cut.response.Response;
import snick.cut.response.Ring;
import snick.cut.response.StepShape;
import snick.quantity.SampleRate;
import snick.store.database.Database;
import snick.store.database.Row;
import snick.store.record.StoredResponse;

/** Responses of rigs as rows. */
public final class ResponseTable {
  /** The number of the response whose id is the next parameter. */
  static final String OF_ID = "(SELECT number FROM response WHERE id = ?)";

  private final Database database;

  public ResponseTable(Database database) {
    this.database = database;
  }

  /** The column response_id: the id of the response of a number. */
  static String id(String number) {
    return "(SELECT p.id FROM response p WHERE p.number = " + number + ") AS response_id";
  }

  /** Adds it, unless one of its figures is there already. */
  public void add(StoredResponse learned) {
    Response response = learned.response();
    if (find(response.id()).isPresent()) {
      return;
    }
    Optional<Ring> ring = response.ring();
    Optional<StepShape> shape = response.shape();
    long number =
        database
            .query(
                "INSERT INTO response (id, device_id, nominal_rate_hz, made_utc_ns, falls, hertz,"
                    + " u_hertz, damping_ratio, u_ln_damping_ratio, cosine, sine, first_s, step_s)"
                    + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")
            .with(
                response.id(),
                learned.deviceId(),
                learned.nominalRate().map(SampleRate::hertz),
                learned.made(),
                response.falls(),
                ring.map(Ring::hertz),
                ring.map(Ring::hertzUncertainty),
                ring.map(Ring::dampingRatio),
                ring.map(Ring::dampingLogUncertainty),
                ring.map(Ring::cosine),
                ring.map(Ring::sine),
                shape.map(StepShape::firstSeconds),
                shape.map(StepShape::stepSeconds))
            .insertedId();
    shape.ifPresent(s -> addShares(number, s));
    learned.cutIds().forEach(cut -> addCut(number, cut));
  }

  private void addShares(long number, StepShape shape) {
    for (int i = 0; i < shape.size(); i++) {
      database
          .query("INSERT INTO response_share VALUES (NULL, ?, ?, ?, ?)")
          .with(number, i, shape.share(i), shape.uncertainty(i))
          .change();
    }
  }

  private void addCut(long number, long cutId) {
    database
        .query("INSERT INTO response_cut VALUES (NULL, ?, ?) ON CONFLICT DO NOTHING")
        .with(number, cutId)
        .change();
  }

  public Optional<StoredResponse> find(String id) {
    return database.query("SELECT * FROM response WHERE id = ?").with(id).first(this::map);
  }

  /** The one learned last from one's own cuts of a rig at a rate. */
  public Optional<StoredResponse> latest(String deviceId, Optional<SampleRate> nominalRate) {
    return database
        .query(
            "SELECT * FROM response WHERE device_id = ? AND nominal_rate_hz IS ?"
                + " AND number IN (SELECT response FROM response_cut) ORDER BY number DESC LIMIT 1")
        .with(deviceId, nominalRate.map(SampleRate::hertz))
        .first(this::map);
  }

  public List<StoredResponse> all() {
    return database.query("SELECT * FROM response ORDER BY number").list(this::map);
  }

  /** Ids of one's own cuts of a rig at a rate that first were severed, oldest first. */
  public List<Long> severed(String deviceId, Optional<SampleRate> nominalRate) {
    return database
        .query(
            "SELECT c.id FROM cut c JOIN recording r ON r.id = c.recording JOIN rig ON rig.id = r.rig"
                + " WHERE rig.device_id = ? AND r.nominal_rate_hz IS ?"
                + " AND c.outcome = 'severed' AND c.id NOT IN (SELECT cut FROM cut_origin) ORDER BY c.id")
        .with(deviceId, nominalRate.map(SampleRate::hertz))
        .list(row -> row.whole("id"));
  }

  private StoredResponse map(Row row) {
    long number = row.whole("number");
    OptionalDouble hertz = row.optionalReal("hertz");
    Optional<Ring> ring =
        hertz.isEmpty()
            ? Optional.empty()
            : Optional.of(
                new Ring(
                    hertz.getAsDouble(),
                    row.real("u_hertz"),
                    row.real("damping_ratio"),
                    row.real("u_ln_damping_ratio"),
                    row.real("cosine"),
                    row.real("sine")));
    OptionalDouble first = row.optionalReal("first_s");
    Optional<StepShape> shape =
        first.isEmpty()
            ? Optional.empty()
            : Optional.of(
                new StepShape(
                    first.getAsDouble(),
                    row.real("step_s"),
                    values("share", number),
                    values("u", number)));
    OptionalDouble rate = row.optionalReal("nominal_rate_hz");
    return new StoredResponse(
        row.text("device_id"),
        rate.isEmpty() ? Optional.empty() : Optional.of(new SampleRate(rate.getAsDouble())),
        row.instant("made_utc_ns"),
        new Response(row.integer("falls"), ring, shape),
        database
            .query("SELECT cut FROM response_cut WHERE response = ? ORDER BY cut")
            .with(number)
            .list(cut -> cut.whole("cut")));
  }

  private double[] values(String column, long number) {
    return database
        .query("SELECT " + column + " FROM response_share WHERE response = ? ORDER BY position")
        .with(number)
        .list(row -> row.real(column))
        .stream()
        .mapToDouble(Double::doubleValue)
        .toArray();
  }
}
