package snick.store;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import snick.cut.Trace;

/** Cuts and their traces as rows. */
final class CutTable {
  private static final String SUMMARY =
      "SELECT c.id, c.recording, c.number, c.occurred_at_utc_ns, c.samples, "
          + ResultTable.COLUMNS
          + ", "
          + ForceTable.COLUMNS
          + ", s.name AS session_name, coalesce(m.position, t.position) AS position,"
          + " coalesce(m.name, t.name) AS stage_name, p.place_mm,"
          + " (SELECT CASE a.counts_again WHEN 0 THEN a.reason END FROM set_aside a WHERE a.cut = c.id ORDER BY a.id DESC LIMIT 1)"
          + " AS set_aside_reason"
          + " FROM cut c LEFT JOIN cut_result q ON q.id ="
          + " (SELECT max(latest.id) FROM cut_result latest WHERE latest.cut = c.id)"
          + " LEFT JOIN cut_force f ON f.id = (SELECT max(latest.id) FROM cut_force latest"
          + " WHERE latest.cut = c.id AND latest.result IS q.id)"
          + " LEFT JOIN calibration k ON k.number = f.calibration"
          + " LEFT JOIN cut_placement p ON p.cut = c.id AND "
          + String.format(EntryTable.STANDS, "p.entry")
          + " LEFT JOIN stage t ON t.id = p.stage LEFT JOIN session s ON s.id = t.session"
          + " LEFT JOIN stage m ON m.id = t.merged_into ";

  private static final String INSERTION =
      "INSERT INTO cut (id, recording, number, occurred_at_utc_ns, samples, "
          + ResultTable.FIGURES
          + ") VALUES (?, ?, ?, ?, ?, "
          + ResultTable.PARAMETERS
          + ") ON CONFLICT (id) DO NOTHING";

  private static final String NEWEST_FIRST =
      " ORDER BY c.occurred_at_utc_ns DESC, c.id DESC LIMIT ?";

  private final Database database;
  private final TimeOrder timeOrder;

  CutTable(Database database) {
    this.database = database;
    this.timeOrder = new TimeOrder(database);
  }

  /** Where the trace of a cut lies; both are below 2^31. */
  static long place(long recordingId, int number) {
    return (recordingId << Integer.SIZE) + number;
  }

  OptionalLong find(long recordingId, int number) {
    return database
        .query("SELECT cut FROM cut_trace WHERE place = ?")
        .whole(place(recordingId, number))
        .first(row -> row.whole("cut"))
        .map(OptionalLong::of)
        .orElse(OptionalLong.empty());
  }

  boolean has(long id) {
    return database
        .query("SELECT 1 FROM cut WHERE id = ?")
        .whole(id)
        .first(row -> true)
        .isPresent();
  }

  /** Adds a cut of a number that its recording does not have yet; its id. */
  long add(long recordingId, Instant occurredAt, Derivation first) {
    return addNew(lastId() + 1, recordingId, occurredAt, first)
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "recording " + recordingId + " already has a cut " + first.cut().number()));
  }

  /** The largest id; 0 if there is no cut. */
  long lastId() {
    return database
        .query("SELECT max(id) AS id FROM cut")
        .first(row -> row.whole("id"))
        .orElseThrow();
  }

  /**
   * Adds a cut with its trace and first result. If its recording has one of this number, gives
   * nothing, and the transaction must be undone.
   *
   * @param likelyId its id unless that is taken, one more than one that was the last: asking for
   *     the last would cost more than the insertion
   */
  OptionalLong addNew(long likelyId, long recordingId, Instant occurredAt, Derivation first) {
    long id = likelyId;
    if (!insert(id, recordingId, occurredAt, first)) {
      id = lastId() + 1;
      insert(id, recordingId, occurredAt, first);
    }
    if (!addTrace(id, place(recordingId, first.cut().number()), first.cut().trace())) {
      return OptionalLong.empty();
    }
    timeOrder.added(id);
    return OptionalLong.of(id);
  }

  private boolean insert(long id, long recordingId, Instant occurredAt, Derivation first) {
    Query insertion =
        database
            .query(INSERTION)
            .whole(id)
            .whole(recordingId)
            .whole(first.cut().number())
            .instant(occurredAt)
            .whole(first.cut().trace().size());
    return ResultTable.bind(insertion, first).change() > 0;
  }

  private boolean addTrace(long id, long place, Trace trace) {
    byte[] samples = TraceBlob.encode(trace);
    return database
            .query(
                "INSERT INTO cut_trace (place, cut, crc32c, samples) VALUES (?, ?, ?, ?)"
                    + " ON CONFLICT (place) DO NOTHING")
            .whole(place)
            .whole(id)
            .whole(TraceBlob.checksum(samples))
            .blob(samples)
            .change()
        > 0;
  }

  Optional<CutSummary> summary(long id) {
    return database.query(SUMMARY + "WHERE c.id = ?").whole(id).first(CutTable::map);
  }

  /** Newest first. */
  List<CutSummary> latest(CutSelection selection, Optional<CutSummary> before, int limit) {
    return selection.isOfFew()
        ? latestOfFew(Condition.of(selection).beforeCut(before), limit)
        : latestOfAll(Condition.inOrderOfTime(selection).beforeCut(before), limit);
  }

  private List<CutSummary> latestOfFew(Condition condition, int limit) {
    return condition
        .bind(database.query(SUMMARY + condition.sql() + NEWEST_FIRST))
        .whole(limit)
        .list(CutTable::map);
  }

  private List<CutSummary> latestOfAll(Condition condition, int limit) {
    String newest =
        TimeOrder.each("t.occurred_at_utc_ns, t.id AS id", condition)
            + " ORDER BY 1 DESC, 2 DESC LIMIT ?";
    Query query =
        database.query(
            SUMMARY + "WHERE c.id IN (SELECT id FROM (" + newest + ") newest)" + NEWEST_FIRST);
    return condition.bind(condition.bind(query)).whole(limit).whole(limit).list(CutTable::map);
  }

  /** In the order of their ids. */
  List<CutSummary> after(CutSelection selection, long afterId, int limit) {
    Condition condition = Condition.of(selection).and("c.id > ?", afterId);
    return condition
        .bind(database.query(SUMMARY + condition.sql() + " ORDER BY c.id LIMIT ?"))
        .whole(limit)
        .list(CutTable::map);
  }

  long count(CutSelection selection) {
    boolean byTime = selection.isOfSomeTime() && !selection.isOfFew();
    Condition condition = byTime ? Condition.inOrderOfTime(selection) : Condition.of(selection);
    Query query =
        condition.bind(
            database.query(
                "SELECT count(*) AS n FROM "
                    + (byTime
                        ? "(" + TimeOrder.each("1", condition) + ")"
                        : "cut c " + condition.sql())));
    return (byTime ? condition.bind(query) : query).first(row -> row.whole("n")).orElseThrow();
  }

  /** The trace of a cut that exists, checked. */
  Trace trace(long cutId) {
    return database
        .query(
            "SELECT t.crc32c, t.samples FROM cut c JOIN cut_trace t"
                + " ON t.place = (c.recording << 32) + c.number AND t.cut = c.id WHERE c.id = ?")
        .whole(cutId)
        .first(row -> decode(cutId, row.whole("crc32c"), row.blob("samples")))
        .orElseThrow(() -> damaged(cutId, "is missing"));
  }

  /** Reads a trace and compares its length with what the cut says. */
  void requireSoundTrace(long cutId) {
    long samples =
        database
            .query("SELECT samples FROM cut WHERE id = ?")
            .whole(cutId)
            .first(row -> row.whole("samples"))
            .orElseThrow();
    int found = trace(cutId).size();
    if (found != samples) {
      throw damaged(cutId, "has " + found + " samples, its cut says " + samples);
    }
  }

  /** The trace that bytes from the store hold, checked. */
  Trace decode(long cutId, long checksum, byte[] samples) {
    long found = TraceBlob.checksum(samples);
    if (found != checksum) {
      throw damaged(
          cutId, String.format(Locale.ROOT, "has checksum %08x, stored was %08x", found, checksum));
    }
    try {
      return TraceBlob.decode(samples);
    } catch (MalformedTraceException e) {
      throw damaged(cutId, "is malformed: " + e.getMessage());
    }
  }

  private StoreException damaged(long cutId, String how) {
    return database.failures().damaged("trace of cut " + cutId + " " + how);
  }

  private static CutSummary map(Row row) {
    return new CutSummary(
        row.whole("id"),
        row.whole("recording"),
        row.integer("number"),
        row.instant("occurred_at_utc_ns"),
        row.integer("samples"),
        ResultTable.map(row),
        ForceTable.optional(row),
        row.optionalText("session_name").map(session -> CutPlace.map(session, row)),
        row.optionalText("set_aside_reason"));
  }
}
