package snick.store;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import snick.cut.Trace;

/**
 * Makes a salvaged store whole: a trace whose cut was lost gets a cut in a recording of its own, a
 * cut without result one that says nothing and can be derived again, one without trace an empty
 * one; what still refers to something lost is taken out.
 */
final class Orphans {
  private static final Recording SALVAGED =
      new Recording(
          "salvaged",
          "",
          "salvaged from a damaged store",
          Recording.Form.BINARY,
          Instant.EPOCH,
          OptionalInt.empty(),
          Optional.empty(),
          0);

  /** Columns of a result that says nothing. */
  private static final String UNKNOWN =
      "detector_version, created_at_utc_ns, outcome, polarity, onset_ns, fall_ns, dips,"
          + " ramp_samples, flags";

  private static final String UNKNOWN_VALUES = "0, 0, 'disturbed', 1, 0, 0, 0, 0, ''";

  /** The last schema version in which a cut and its first result were two rows. */
  private static final int LAST_WITH_RESULTS_APART = 6;

  /** The last schema version in which a trace lies by the id of its cut. */
  private static final int LAST_BY_CUT = 7;

  /** The place of the trace of a row of cut. */
  private static final String PLACE = "(recording << 32) + number";

  private final Database database;
  private final List<String> lost;
  private final long version;

  Orphans(Database database, List<String> lost) {
    this.database = database;
    this.lost = lost;
    this.version = database.pragma("user_version");
  }

  void mend() {
    database.write(
        () -> {
          long recording = addRecording();
          adoptTraces(recording);
          adoptCuts(recording);
          if (resultsLieApart()) {
            addResults();
          } else {
            removeStrayForces();
          }
          if (tracesLieByCut()) {
            addTraces("id");
          } else {
            putTracesInTheirPlaces();
            addTraces(PLACE + ", id");
          }
          while (removeDangling()) {}
          if (!tracesLieByCut()) {
            new TimeOrder(database).rebuild();
          }
          return null;
        });
  }

  /** Its id is none that a lost recording may have had. */
  private long addRecording() {
    long added = new RecordingTable(database).add(SALVAGED);
    long id = 1 + Math.max(added, largestNamed());
    database.query("UPDATE recording SET id = ? WHERE id = ?").whole(id).whole(added).change();
    return id;
  }

  private long largestNamed() {
    String byTrace = tracesLieByCut() ? "0" : "(SELECT max(place) >> 32 FROM cut_trace)";
    return database
        .query(
            "SELECT max(coalesce(max(recording), 0), coalesce(" + byTrace + ", 0)) AS id FROM cut")
        .first(row -> row.whole("id"))
        .orElseThrow();
  }

  private boolean resultsLieApart() {
    return version <= LAST_WITH_RESULTS_APART;
  }

  private boolean tracesLieByCut() {
    return version <= LAST_BY_CUT;
  }

  /** A trace whose cut is lost, and what that becomes; samples are empty if unreadable. */
  private record Orphan(long cut, long recording, long number, OptionalInt samples) {}

  private void adoptTraces(long recording) {
    CutTable cuts = new CutTable(database);
    database
        .query(
            "SELECT t.cut, t.crc32c, t.samples, "
                + (tracesLieByCut()
                    ? recording + " AS recording, t.cut AS number"
                    : "t.place >> 32 AS recording, t.place & 0xffffffff AS number")
                + " FROM cut_trace t WHERE t.cut NOT IN (SELECT id FROM cut)")
        .list(row -> orphan(row, samples(cuts, row)))
        .forEach(this::adopt);
  }

  private static Orphan orphan(Row row, OptionalInt samples) {
    return new Orphan(row.whole("cut"), row.whole("recording"), row.whole("number"), samples);
  }

  private static OptionalInt samples(CutTable cuts, Row row) {
    try {
      Trace trace = cuts.decode(row.whole("cut"), row.whole("crc32c"), row.blob("samples"));
      return OptionalInt.of(trace.size());
    } catch (StoreException e) {
      if (e.trouble() != StoreException.Trouble.DAMAGED) {
        throw e;
      }
      return OptionalInt.empty();
    }
  }

  private void adopt(Orphan orphan) {
    long cut = orphan.cut();
    if (orphan.samples().isEmpty()) {
      database.query("DELETE FROM cut_trace WHERE cut = ?").whole(cut).change();
      lost.add("cut " + cut + ": it is lost, and its trace is damaged");
      return;
    }
    addCut(orphan);
    if (resultsLieApart()) {
      lost.add("cut " + cut + ": its recording and time are lost, its trace is kept");
    } else {
      removeForcesOfFirst(cut);
      lost.add(
          "cut "
              + cut
              + ": its "
              + (tracesLieByCut() ? "recording, time" : "time")
              + " and first result are lost, its trace is kept; derive it again");
    }
  }

  private void addCut(Orphan orphan) {
    database
        .query(
            resultsLieApart()
                ? "INSERT OR IGNORE INTO cut VALUES (?, ?, ?, 0, ?)"
                : "INSERT OR IGNORE INTO cut (id, recording, number, occurred_at_utc_ns, samples, "
                    + UNKNOWN
                    + ") VALUES (?, ?, ?, 0, ?, "
                    + UNKNOWN_VALUES
                    + ")")
        .whole(orphan.cut())
        .whole(orphan.recording())
        .whole(orphan.number())
        .whole(orphan.samples().getAsInt())
        .change();
  }

  /** They say nothing of the result that is put in the place of the one they were derived from. */
  private void removeForcesOfFirst(long cut) {
    database.query("DELETE FROM cut_force WHERE cut = ? AND result IS NULL").whole(cut).change();
  }

  private void adoptCuts(long recording) {
    int adopted =
        database
            .query(
                "UPDATE cut SET recording = ?, number = id"
                    + " WHERE recording NOT IN (SELECT r.id FROM recording r JOIN rig g ON g.id = r.rig)")
            .whole(recording)
            .change();
    if (adopted > 0) {
      lost.add(adopted + " cuts: their recording is lost");
    }
  }

  private void addResults() {
    int added =
        database
            .query(
                "INSERT INTO cut_result (cut, "
                    + UNKNOWN
                    + ") SELECT id, "
                    + UNKNOWN_VALUES
                    + " FROM cut WHERE id NOT IN (SELECT cut FROM cut_result)")
            .change();
    if (added > 0) {
      lost.add(added + " cuts: their results are lost; derive them again");
    }
  }

  /** Whether they are of their cut or of their result's, nothing tells. */
  private void removeStrayForces() {
    int removed =
        database
            .query(
                "DELETE FROM cut_force WHERE EXISTS (SELECT 1 FROM cut_result q"
                    + " WHERE q.id = cut_force.result AND q.cut <> cut_force.cut)")
            .change();
    if (removed > 0) {
      lost.add(removed + " forces: they name another cut than their result; derive them again");
    }
  }

  /** Those whose cut has come into another recording, above all. */
  private void putTracesInTheirPlaces() {
    database
        .query(
            "UPDATE OR IGNORE cut_trace SET place = c.place FROM (SELECT id, "
                + PLACE
                + " AS place FROM cut) c WHERE c.id = cut_trace.cut AND c.place <> cut_trace.place")
        .change();
    int strays =
        database
            .query(
                "DELETE FROM cut_trace WHERE place <> (SELECT "
                    + PLACE
                    + " FROM cut WHERE id = cut_trace.cut)")
            .change();
    if (strays > 0) {
      lost.add(strays + " traces: their cuts have others");
    }
  }

  /**
   * @param key what a new row of cut_trace begins with, of the row of cut
   */
  private void addTraces(String key) {
    byte[] empty = TraceBlob.encode(new Trace(new long[0], new int[0], new boolean[0], List.of()));
    int added =
        database
            .query(
                "INSERT INTO cut_trace SELECT "
                    + key
                    + ", ?, ? FROM cut"
                    + " WHERE id NOT IN (SELECT cut FROM cut_trace)")
            .whole(TraceBlob.checksum(empty))
            .blob(empty)
            .change();
    if (added > 0) {
      lost.add(added + " cuts: their traces are lost; they have 0 samples now");
      database
          .query(
              "UPDATE cut SET samples = 0 WHERE id IN (SELECT cut FROM cut_trace WHERE samples = ?)")
          .blob(empty)
          .change();
    }
  }

  /** Whether something was taken out, so that more may refer to nothing now. */
  private boolean removeDangling() {
    List<String> deletions =
        database
            .query(
                "SELECT DISTINCT \"table\" AS t, rowid AS r, parent FROM"
                    + " pragma_foreign_key_check WHERE rowid IS NOT NULL")
            .list(row -> "DELETE FROM " + row.text("t") + " WHERE rowid = " + row.whole("r"));
    deletions.forEach(database::execute);
    int parts =
        List.of("calibration_coefficient", "calibration_covariance", "calibration_term").stream()
            .mapToInt(this::removeParts)
            .sum();
    if (!deletions.isEmpty()) {
      lost.add(deletions.size() + " rows: what they refer to is lost");
    }
    return !deletions.isEmpty() || parts > 0;
  }

  private int removeParts(String table) {
    return database
        .query(
            "DELETE FROM " + table + " WHERE calibration NOT IN (SELECT number FROM calibration)")
        .change();
  }
}
