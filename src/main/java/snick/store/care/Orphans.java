package snick.store.care;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import snick.cut.Trace;
import snick.store.database.Database;
import snick.store.database.StoreException;
import snick.store.record.Recording;
import snick.store.table.CutTable;
import snick.store.table.RecordingTable;
import snick.store.trace.TraceBlob;

/**
 * Makes a salvaged store whole: a trace whose cut was lost gets a cut in a recording of its own and
 * a result that says nothing and can be derived again, a cut without trace an empty one; what still
 * refers to something lost is taken out.
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

  private final Database database;
  private final List<String> lost;

  Orphans(Database database, List<String> lost) {
    this.database = database;
    this.lost = lost;
  }

  void mend() {
    database.change(
        () -> {
          long recording = addRecording();
          adoptTraces(recording);
          adoptCuts(recording);
          removeStrayForces();
          addTraces();
          forgetResponses();
          while (removeDangling()) {}
        });
  }

  /** Its id is none that a lost recording may have had. */
  private long addRecording() {
    long added = new RecordingTable(database).add(SALVAGED);
    long id = 1 + Math.max(added, largestNamed());
    database.query("UPDATE recording SET id = ? WHERE id = ?").with(id, added).change();
    return id;
  }

  private long largestNamed() {
    return database
        .query("SELECT coalesce(max(recording), 0) AS id FROM cut")
        .first(row -> row.whole("id"))
        .orElseThrow();
  }

  private void adoptTraces(long recording) {
    CutTable cuts = new CutTable(database);
    database
        .query("SELECT t.cut FROM cut_trace t WHERE t.cut NOT IN (SELECT id FROM cut)")
        .list(row -> row.whole("cut"))
        .forEach(cut -> adoptTrace(cuts, cut, recording));
  }

  /** How many samples a trace holds; empty if it cannot be read. */
  private static OptionalInt samples(CutTable cuts, long cut) {
    try {
      return OptionalInt.of(cuts.trace(cut).size());
    } catch (StoreException e) {
      if (e.trouble() != StoreException.Trouble.DAMAGED) {
        throw e;
      }
      return OptionalInt.empty();
    }
  }

  private void adoptTrace(CutTable cuts, long cut, long recording) {
    OptionalInt samples = samples(cuts, cut);
    if (samples.isEmpty()) {
      database.query("DELETE FROM cut_trace WHERE cut = ?").with(cut).change();
      lost.add("cut " + cut + ": it is lost, and its trace is damaged");
      return;
    }
    cuts.adopt(cut, recording, samples.getAsInt());
    removeForcesOfFirst(cut);
    lost.add(
        "cut "
            + cut
            + ": its recording, time and first result are lost, its trace is kept;"
            + " derive it again");
  }

  /** They say nothing of the result that is put in the place of the one they were derived from. */
  private void removeForcesOfFirst(long cut) {
    database.query("DELETE FROM cut_force WHERE cut = ? AND result IS NULL").with(cut).change();
  }

  private void adoptCuts(long recording) {
    int adopted =
        database
            .query(
                "UPDATE cut SET recording = ?, number = id"
                    + " WHERE recording NOT IN (SELECT r.id FROM recording r JOIN rig g ON g.id = r.rig)")
            .with(recording)
            .change();
    if (adopted > 0) {
      lost.add(adopted + " cuts: their recording is lost");
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

  private void addTraces() {
    byte[] empty = TraceBlob.encode(Trace.none());
    int added =
        database
            .query(
                "INSERT INTO cut_trace SELECT id, ?, ? FROM cut"
                    + " WHERE id NOT IN (SELECT cut FROM cut_trace)")
            .with(TraceBlob.checksum(empty), empty)
            .change();
    if (added > 0) {
      lost.add(added + " cuts: their traces are lost; they have 0 samples now");
      database
          .query(
              "UPDATE cut SET samples = 0"
                  + " WHERE id IN (SELECT cut FROM cut_trace WHERE samples = ?)")
          .with(empty)
          .change();
    }
  }

  /** A result stays without the response that it was derived with; that can be learned again. */
  private void forgetResponses() {
    for (String table : List.of("cut", "cut_result")) {
      database
          .query(
              "UPDATE "
                  + table
                  + " SET response = NULL WHERE response NOT IN (SELECT number FROM response)")
          .change();
    }
    for (String part : List.of("response_share", "response_cut")) {
      database
          .query("DELETE FROM " + part + " WHERE response NOT IN (SELECT number FROM response)")
          .change();
    }
    database.query("DELETE FROM response_cut WHERE cut NOT IN (SELECT id FROM cut)").change();
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
