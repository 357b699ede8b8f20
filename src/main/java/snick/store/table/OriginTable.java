package snick.store.table;

import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import snick.store.database.Database;
import snick.store.database.Row;
import snick.store.record.Credit;
import snick.store.record.Origin;

/** Origins, and what came from them, as rows. */
public final class OriginTable {
  private static final String SELECT =
      "SELECT o.*, (SELECT count(*) FROM cut_origin c WHERE c.origin = o.id) AS cuts"
          + " FROM origin o ";

  private final Database database;

  public OriginTable(Database database) {
    this.database = database;
  }

  public boolean knows(String sha256) {
    return database.query("SELECT 1 FROM origin WHERE sha256 = ?").with(sha256).any();
  }

  /** Adds an origin with its credits; its number. */
  public long add(Origin origin, Instant takenIn) {
    long id = addAlone(origin, takenIn);
    for (int position = 0; position < origin.credits().size(); position++) {
      Credit credit = origin.credits().get(position);
      database
          .query(
              "INSERT INTO credit (origin, position, sha256, title, licence, contributors)"
                  + " VALUES (?, ?, ?, ?, ?, ?)")
          .with(
              id,
              position,
              credit.sha256(),
              credit.title(),
              credit.licence(),
              String.join("\n", credit.contributors()))
          .change();
    }
    return id;
  }

  private long addAlone(Origin origin, Instant takenIn) {
    return database
        .query(
            "INSERT INTO origin (kind, sha256, name, document, taken_in_utc_ns)"
                + " VALUES (?, ?, ?, ?, ?)")
        .with(origin.kind(), origin.sha256(), origin.name(), origin.document(), takenIn)
        .insertedId();
  }

  /** Marks a row of a table that has origins. */
  public void mark(String table, long id, long origin) {
    database.query("INSERT INTO " + table + "_origin VALUES (?, ?)").with(id, origin).change();
  }

  /** Marks a cut with its origin, and with whose work it is if that is stated. */
  public void markCut(long cutId, long origin, int position) {
    database
        .query(
            "INSERT INTO cut_origin VALUES"
                + " (?, ?, (SELECT id FROM credit WHERE origin = ? AND position = ?))")
        .with(cutId, origin, origin, position)
        .change();
  }

  /** Whose work each cut is that is not one's own, by the cut's id. */
  public Map<Long, Credit.Of> creditsOfCuts() {
    Map<Long, Credit.Of> credits = new HashMap<>();
    for (Origin.Taken origin : all()) {
      List<Credit> named = origin.origin().credits();
      for (int position = 0; position < named.size(); position++) {
        Credit.Of of = new Credit.Of(origin.number(), position == 0, named.get(position));
        database
            .query(
                "SELECT cut FROM cut_origin WHERE credit ="
                    + " (SELECT id FROM credit WHERE origin = ? AND position = ?)")
            .with(origin.number(), position)
            .list(row -> credits.put(row.whole("cut"), of));
      }
    }
    return credits;
  }

  /** Whose work a session is; empty if it is one's own. */
  public Optional<Credit.Of> ofSession(String name) {
    return database
        .query(
            SELECT
                + "WHERE o.id = (SELECT origin FROM session_origin WHERE session ="
                + " (SELECT id FROM session WHERE name = ?))")
        .with(name)
        .first(this::map)
        .filter(taken -> !taken.origin().credits().isEmpty())
        .map(taken -> new Credit.Of(taken.number(), true, taken.origin().credits().get(0)));
  }

  private List<Credit> credits(long origin) {
    return database
        .query("SELECT * FROM credit WHERE origin = ? ORDER BY position")
        .with(origin)
        .list(OriginTable::credit);
  }

  private static Credit credit(Row row) {
    return new Credit(
        row.text("sha256"),
        row.text("title"),
        row.optionalText("licence"),
        row.text("contributors").lines().toList());
  }

  /** Whose work a cut is; empty if it came with no package. */
  public Optional<Credit> creditOfCut(long cutId) {
    return database
        .query("SELECT * FROM credit WHERE id = (SELECT credit FROM cut_origin WHERE cut = ?)")
        .with(cutId)
        .first(OriginTable::credit);
  }

  /** Whether a cut came from this origin. */
  public boolean ofCutIs(long cutId, long origin) {
    return database
        .query("SELECT 1 FROM cut_origin WHERE cut = ? AND origin = ?")
        .with(cutId, origin)
        .any();
  }

  public boolean isForeignCalibration(long number) {
    return database
        .query("SELECT 1 FROM calibration_origin WHERE calibration = ?")
        .with(number)
        .any();
  }

  /** In the order taken in. */
  public List<Origin.Taken> all() {
    return database.query(SELECT + "ORDER BY o.id").list(this::map);
  }

  public Optional<Origin.Taken> ofCut(long cutId) {
    return database
        .query(SELECT + "WHERE o.id = (SELECT origin FROM cut_origin WHERE cut = ?)")
        .with(cutId)
        .first(this::map);
  }

  private Origin.Taken map(Row row) {
    long number = row.whole("id");
    return new Origin.Taken(
        number,
        new Origin(
            row.text("kind"),
            row.text("sha256"),
            row.text("name"),
            row.text("document"),
            credits(number)),
        row.instant("taken_in_utc_ns"),
        row.whole("cuts"));
  }
}
