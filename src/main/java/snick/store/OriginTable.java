package snick.store;

import java.time.Instant;
import java.util.List;
import java.util.Optional;

/** Origins, and what came from them, as rows. */
final class OriginTable {
  private static final String SELECT =
      "SELECT o.*, (SELECT count(*) FROM cut_origin c WHERE c.origin = o.id) AS cuts FROM origin o ";

  private final Database database;

  OriginTable(Database database) {
    this.database = database;
  }

  boolean knows(String sha256) {
    return database
        .query("SELECT 1 FROM origin WHERE sha256 = ?")
        .text(sha256)
        .first(row -> true)
        .isPresent();
  }

  long add(Origin origin, Instant takenIn) {
    return database
        .query(
            "INSERT INTO origin (kind, sha256, name, document, taken_in_utc_ns)"
                + " VALUES (?, ?, ?, ?, ?)")
        .text(origin.kind())
        .text(origin.sha256())
        .text(origin.name())
        .text(origin.document())
        .instant(takenIn)
        .insertedId();
  }

  /** Marks a row of a table that has origins. */
  void mark(String table, long id, long origin) {
    database
        .query("INSERT INTO " + table + "_origin VALUES (?, ?)")
        .whole(id)
        .whole(origin)
        .change();
  }

  /** Whether a cut came from this origin. */
  boolean ofCutIs(long cutId, long origin) {
    return database
        .query("SELECT 1 FROM cut_origin WHERE cut = ? AND origin = ?")
        .whole(cutId)
        .whole(origin)
        .first(row -> true)
        .isPresent();
  }

  boolean isForeignCalibration(long number) {
    return database
        .query("SELECT 1 FROM calibration_origin WHERE calibration = ?")
        .whole(number)
        .first(row -> true)
        .isPresent();
  }

  /** In the order taken in. */
  List<Origin.Taken> all() {
    return database.query(SELECT + "ORDER BY o.id").list(OriginTable::map);
  }

  Optional<Origin.Taken> ofCut(long cutId) {
    return database
        .query(SELECT + "WHERE o.id = (SELECT origin FROM cut_origin WHERE cut = ?)")
        .whole(cutId)
        .first(OriginTable::map);
  }

  private static Origin.Taken map(Row row) {
    return new Origin.Taken(
        new Origin(row.text("kind"), row.text("sha256"), row.text("name"), row.text("document")),
        row.instant("taken_in_utc_ns"),
        row.whole("cuts"));
  }
}
