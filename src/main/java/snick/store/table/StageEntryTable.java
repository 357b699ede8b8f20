package snick.store.table;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import snick.journal.CutPlacement;
import snick.journal.EdgeDirection;
import snick.journal.Entry;
import snick.journal.Finding;
import snick.journal.Inspection;
import snick.journal.Inspection.Look;
import snick.journal.Method;
import snick.journal.Photo;
import snick.journal.Place;
import snick.journal.Pressure;
import snick.journal.SetAside;
import snick.journal.SharpeningStep;
import snick.journal.SharpeningStep.Grain;
import snick.journal.Side;
import snick.journal.Stage;
import snick.journal.StageEntry;
import snick.journal.Withdrawn;
import snick.store.database.Database;
import snick.store.database.Row;

/** Steps, inspections, cut placements and cuts set aside as rows. */
public final class StageEntryTable {
  private static final String OF_SESSION =
      " d JOIN entry e ON e.id = d.entry JOIN stage t ON t.id = d.stage"
          + " LEFT JOIN stage m ON m.id = t.merged_into"
          + " WHERE t.session = (SELECT id FROM session WHERE name = ?)";

  private final Database database;

  public StageEntryTable(Database database) {
    this.database = database;
  }

  /** Adds the content of an entry that was just made. */
  public void add(String sessionName, Stage in, Entry<? extends StageEntry> entry) {
    long stage = stageId(sessionName, in);
    if (entry.content() instanceof SharpeningStep step) {
      add(entry.id(), stage, step);
    } else if (entry.content() instanceof Inspection inspection) {
      add(entry.id(), stage, inspection);
    } else if (entry.content() instanceof CutPlacement placement) {
      add(entry.id(), stage, placement);
    } else if (entry.content() instanceof Withdrawn withdrawn) {
      add(entry.id(), stage, withdrawn);
    }
  }

  private long stageId(String sessionName, Stage stage) {
    return database
        .query(
            "SELECT t.id FROM stage t JOIN session s ON s.id = t.session"
                + " WHERE s.name = ? AND t.position = ?")
        .with(sessionName, stage.order())
        .first(row -> row.whole("id"))
        .orElseThrow();
  }

  private void add(long entryId, long stage, SharpeningStep step) {
    database
        .query("INSERT INTO sharpening_step VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")
        .with(
            entryId,
            stage,
            step.at(),
            step.abrasive(),
            step.grain().grit(),
            step.grain().micron(),
            step.direction().map(EdgeDirection::word),
            step.strokesPerSide(),
            step.pressure().map(Pressure::word),
            step.note())
        .change();
  }

  private void add(long entryId, long stage, Inspection inspection) {
    database
        .query("INSERT INTO inspection VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")
        .with(
            entryId,
            stage,
            inspection.at(),
            inspection.look().method().word(),
            inspection.look().magnification(),
            inspection.side().word(),
            inspection.place().map(Place::word),
            inspection.finding().word(),
            inspection.note(),
            inspection.photo().map(Photo::name))
        .change();
  }

  private void add(long entryId, long stage, CutPlacement placement) {
    database
        .query("INSERT INTO cut_placement VALUES (?, ?, ?, ?, ?)")
        .with(entryId, stage, placement.at(), placement.cut(), placement.placeMm())
        .change();
  }

  private void add(long entryId, long stage, Withdrawn withdrawn) {
    database
        .query("INSERT INTO withdrawal VALUES (?, ?, ?)")
        .with(entryId, stage, withdrawn.at())
        .change();
  }

  public void add(SetAside act) {
    database
        .query("INSERT INTO set_aside (cut, at_utc_ns, reason, counts_again) VALUES (?, ?, ?, ?)")
        .with(act.cut(), act.at(), act.reason(), act.countsAgain() ? 1 : 0)
        .change();
  }

  /** Every entry of a session, those corrected too, in the order written. */
  public List<Entry<StageEntry>> ofSession(String sessionName) {
    List<Entry<StageEntry>> found = new ArrayList<>();
    found.addAll(rows("sharpening_step", sessionName, StageEntryTable::step));
    found.addAll(rows("inspection", sessionName, StageEntryTable::inspection));
    found.addAll(rows("cut_placement", sessionName, StageEntryTable::placement));
    found.addAll(rows("withdrawal", sessionName, StageEntryTable::withdrawal));
    found.sort(Comparator.comparingLong(Entry::id));
    return found;
  }

  private List<Entry<StageEntry>> rows(
      String table, String sessionName, Function<Row, StageEntry> content) {
    return database
        .query(
            "SELECT d.*, coalesce(m.name, t.name) AS stage_name, "
                + EntryTable.COLUMNS
                + " FROM "
                + table
                + OF_SESSION)
        .with(sessionName)
        .list(row -> EntryTable.map(row, content.apply(row)));
  }

  /** The steps noted last that stand, newest first. */
  public List<SharpeningStep> latestSteps(int limit) {
    return database
        .query(
            "SELECT d.*, coalesce(m.name, t.name) AS stage_name FROM sharpening_step d"
                + " JOIN stage t ON t.id = d.stage LEFT JOIN stage m ON m.id = t.merged_into"
                + " WHERE NOT EXISTS (SELECT 1 FROM entry c WHERE c.corrects = d.entry)"
                + " ORDER BY d.entry DESC LIMIT ?")
        .with(limit)
        .list(StageEntryTable::step);
  }

  public List<SetAside> setAside(String sessionName) {
    return database
        .query(
            "SELECT a.* FROM set_aside a WHERE a.cut IN (SELECT p.cut FROM cut_placement p"
                + " JOIN stage t ON t.id = p.stage JOIN session s ON s.id = t.session"
                + " WHERE s.name = ?) ORDER BY a.id")
        .with(sessionName)
        .list(StageEntryTable::act);
  }

  public List<SetAside> acts(long cutId) {
    return database
        .query("SELECT * FROM set_aside WHERE cut = ? ORDER BY id")
        .with(cutId)
        .list(StageEntryTable::act);
  }

  public Set<Long> everSetAside() {
    return Set.copyOf(
        database.query("SELECT DISTINCT cut FROM set_aside").list(row -> row.whole("cut")));
  }

  private static SetAside act(Row row) {
    return new SetAside(
        row.instant("at_utc_ns"),
        row.whole("cut"),
        row.text("reason"),
        row.whole("counts_again") == 1);
  }

  private static StageEntry withdrawal(Row row) {
    return new Withdrawn(row.instant("at_utc_ns"), row.text("stage_name"));
  }

  private static SharpeningStep step(Row row) {
    return new SharpeningStep(
        row.instant("at_utc_ns"),
        row.text("stage_name"),
        row.text("abrasive"),
        new Grain(row.optionalInteger("grit"), row.optionalReal("micron")),
        row.optionalWord("direction", EdgeDirection.class),
        row.optionalInteger("strokes_per_side"),
        row.optionalWord("pressure", Pressure.class),
        row.text("note"));
  }

  private static StageEntry inspection(Row row) {
    return new Inspection(
        row.instant("at_utc_ns"),
        row.text("stage_name"),
        new Look(row.word("method", Method.class), row.optionalReal("magnification")),
        row.word("side", Side.class),
        row.optionalText("place").map(Place::parse),
        row.word("finding", Finding.class),
        row.text("note"),
        row.optionalText("photo").flatMap(Photo::named));
  }

  private static StageEntry placement(Row row) {
    return new CutPlacement(
        row.instant("at_utc_ns"),
        row.text("stage_name"),
        row.whole("cut"),
        row.optionalReal("place_mm"));
  }
}
