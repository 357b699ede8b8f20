package snick.store.table;

import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import snick.cut.CutFigures;
import snick.cut.Outcome;
import snick.cut.Trace;
import snick.phrase.Phrase;
import snick.store.database.Database;
import snick.store.database.Query;
import snick.store.database.Row;
import snick.store.database.StoreException;
import snick.store.database.UtcNanos;
import snick.store.record.CutPlace;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.store.record.Derivation;
import snick.store.record.NewCut;
import snick.store.trace.MalformedTraceException;
import snick.store.trace.TraceBlob;
import snick.verdict.burr.StageEvidence.CutResult;

/** Cuts and their traces as rows. */
public final class CutTable {
  private static final String FROM =
      " FROM cut c LEFT JOIN cut_result q ON q.id ="
          + " (SELECT max(latest.id) FROM cut_result latest WHERE latest.cut = c.id)"
          + " LEFT JOIN cut_force f ON f.id = (SELECT max(latest.id) FROM cut_force latest"
          + " WHERE latest.cut = c.id AND latest.result IS q.id)"
          + " LEFT JOIN calibration k ON k.number = f.calibration ";

  private static final String SUMMARY =
      "SELECT c.id, c.recording, c.number, c.occurred_at_utc_ns, c.samples, c.force_missing, "
          + ResultTable.COLUMNS
          + ", "
          + ForceTable.COLUMNS
          + ", s.name AS session_name, coalesce(m.position, t.position) AS position,"
          + " coalesce(m.name, t.name) AS stage_name, p.place_mm,"
          + " (SELECT CASE a.counts_again WHEN 0 THEN a.reason END FROM set_aside a WHERE a.cut = c.id ORDER BY a.id DESC LIMIT 1)"
          + " AS set_aside_reason"
          + FROM
          + " LEFT JOIN cut_placement p ON p.cut = c.id AND "
          + String.format(EntryTable.STANDS, "p.entry")
          + " LEFT JOIN stage t ON t.id = p.stage LEFT JOIN session s ON s.id = t.session"
          + " LEFT JOIN stage m ON m.id = t.merged_into ";

  private static final String INSERTION =
      "INSERT INTO cut (recording, number, occurred_at_utc_ns, samples, force_missing, "
          + ResultTable.FIGURES
          + ") VALUES (?, ?, ?, ?, ?, "
          + ResultTable.PARAMETERS
          + ") ON CONFLICT (recording, number) DO NOTHING";

  private static final String ADOPTION =
      "INSERT INTO cut (id, recording, number, occurred_at_utc_ns, samples, "
          + ResultTable.FIGURES
          + ") VALUES (?, ?, ?, ?, ?, "
          + ResultTable.PARAMETERS
          + ")";

  private final Database database;

  public CutTable(Database database) {
    this.database = database;
  }

  public Optional<Long> find(long recordingId, int number) {
    return database
        .query("SELECT id FROM cut WHERE recording = ? AND number = ?")
        .with(recordingId, number)
        .first(row -> row.whole("id"));
  }

  public boolean has(long id) {
    return database.query("SELECT 1 FROM cut WHERE id = ?").with(id).any();
  }

  /** Adds a cut of a number that its recording does not have yet; its id. */
  public long add(NewCut cut, Derivation first) {
    return addNew(cut, first)
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "recording " + cut.recordingId() + " already has a cut " + cut.cut().number()));
  }

  /**
   * Adds a cut with its trace and first result; empty if its recording has one of this number,
   * which is kept.
   */
  public OptionalLong addNew(NewCut cut, Derivation first) {
    Trace trace = cut.cut().trace();
    Query insertion =
        database
            .query(INSERTION)
            .with(
                cut.recordingId(),
                cut.cut().number(),
                cut.occurredAt(),
                trace.size(),
                cut.forceMissing());
    OptionalLong id = ResultTable.bind(insertion, first).insertedIdIfNew();
    if (id.isPresent()) {
      addTrace(id.getAsLong(), trace);
    }
    return id;
  }

  /**
   * Adds a cut that is lost but for its trace, under the id of that, with a result of version 0.
   */
  public void adopt(long id, long recordingId, int samples) {
    CutFigures nothing = CutFigures.withoutTrace(Outcome.DISTURBED, Optional.empty(), Double.NaN);
    Query insertion = database.query(ADOPTION).with(id, recordingId, id, Instant.EPOCH, samples);
    ResultTable.bind(insertion, new Derivation(0, 0, Instant.EPOCH, nothing, Optional.empty()))
        .change();
  }

  private void addTrace(long id, Trace trace) {
    byte[] samples = TraceBlob.encode(trace);
    database
        .query("INSERT INTO cut_trace (cut, crc32c, samples) VALUES (?, ?, ?)")
        .with(id, TraceBlob.checksum(samples), samples)
        .change();
  }

  public Optional<CutSummary> summary(long id) {
    return database.query(SUMMARY + "WHERE c.id = ?").with(id).first(CutTable::map);
  }

  /** Newest first. */
  public List<CutSummary> latest(CutSelection selection, Optional<CutSummary> before, int limit) {
    WhereClause condition = WhereClause.of(selection);
    before.ifPresent(
        cut ->
            condition.and(
                "(c.occurred_at_utc_ns, c.id) < (?, ?)", UtcNanos.of(cut.occurredAt()), cut.id()));
    return condition
        .bind(database.query(SUMMARY + condition.sql() + condition.newestFirst() + " LIMIT ?"))
        .with(limit)
        .list(CutTable::map);
  }

  /** What each cut of a selection says of the edge, by id; those that say nothing left out. */
  public Map<Long, CutResult> cutResults(CutSelection selection) {
    WhereClause condition = WhereClause.of(selection);
    Map<Long, CutResult> results = new HashMap<>();
    condition
        .bind(
            database.query(
                "SELECT c.id, "
                    + ResultTable.OUTCOME
                    + ", "
                    + ForceTable.COLUMNS
                    + FROM
                    + condition.sql()
                    + " AND f.id IS NOT NULL"))
        .list(
            row ->
                CutResult.of(
                        ResultTable.outcome(row), ResultTable.flags(row), ForceTable.estimate(row))
                    .map(result -> results.put(row.whole("id"), result)));
    return results;
  }

  /** Device ids of the rigs that made the cuts of a selection. */
  public List<String> rigs(CutSelection selection) {
    WhereClause condition = WhereClause.of(selection);
    return condition
        .bind(
            database.query(
                "SELECT DISTINCT g.device_id FROM cut c JOIN recording r ON r.id = c.recording"
                    + " JOIN rig g ON g.id = r.rig "
                    + condition.sql()
                    + " ORDER BY g.id"))
        .list(row -> row.text("device_id"));
  }

  /** Ids of the calibrations that the current forces of a selection come from. */
  public List<String> calibrations(CutSelection selection) {
    WhereClause condition = WhereClause.of(selection);
    return condition
        .bind(
            database.query(
                "SELECT DISTINCT k.id AS calibration"
                    + FROM
                    + condition.sql()
                    + " AND k.id IS NOT NULL ORDER BY k.number"))
        .list(row -> row.text("calibration"));
  }

  /** In the order of their ids. */
  public List<CutSummary> after(CutSelection selection, long afterId, int limit) {
    WhereClause condition = WhereClause.of(selection).and("c.id > ?", afterId);
    return condition
        .bind(database.query(SUMMARY + condition.sql() + " ORDER BY c.id LIMIT ?"))
        .with(limit)
        .list(CutTable::map);
  }

  public long count(CutSelection selection) {
    WhereClause condition = WhereClause.of(selection);
    return condition
        .bind(database.query("SELECT count(*) AS n FROM cut c " + condition.sql()))
        .first(row -> row.whole("n"))
        .orElseThrow();
  }

  /** The trace of a cut that exists, checked. */
  public Trace trace(long cutId) {
    return database
        .query("SELECT crc32c, samples FROM cut_trace WHERE cut = ?")
        .with(cutId)
        .first(row -> decode(cutId, row.whole("crc32c"), row.blob("samples")))
        .orElseThrow(() -> damaged("store.trace_missing", cutId));
  }

  /** Reads a trace and compares its length with what the cut says. */
  public void requireSoundTrace(long cutId) {
    long samples =
        database
            .query("SELECT samples FROM cut WHERE id = ?")
            .with(cutId)
            .first(row -> row.whole("samples"))
            .orElseThrow();
    int found = trace(cutId).size();
    if (found != samples) {
      throw damaged("store.trace_length", cutId, "found", found, "stated", samples);
    }
  }

  private Trace decode(long cutId, long checksum, byte[] samples) {
    long found = TraceBlob.checksum(samples);
    if (found != checksum) {
      throw damaged(
          "store.trace_checksum",
          cutId,
          "found",
          String.format(Locale.ROOT, "%08x", found),
          "stored",
          String.format(Locale.ROOT, "%08x", checksum));
    }
    try {
      return TraceBlob.decode(samples);
    } catch (MalformedTraceException e) {
      throw damaged("store.trace_malformed", cutId, "what", e.getMessage());
    }
  }

  private StoreException damaged(String key, long cutId, Object... values) {
    Map<String, Object> all = new HashMap<>(Phrase.of(key, values).values());
    all.put("cut", cutId);
    return database.failures().damaged(new Phrase(key, all));
  }

  private static CutSummary map(Row row) {
    return new CutSummary(
        row.whole("id"),
        row.whole("recording"),
        row.integer("number"),
        row.instant("occurred_at_utc_ns"),
        row.integer("samples"),
        new CutSummary.Standing(
            ResultTable.map(row), ForceTable.optional(row), row.optionalText("force_missing")),
        row.optionalText("session_name").map(session -> CutPlace.map(session, row)),
        row.optionalText("set_aside_reason"));
  }
}
