package snick.store.care;

import java.util.ArrayList;
import java.util.List;
import snick.store.database.Database;
import snick.store.database.Migrations;
import snick.store.database.StoreException;
import snick.store.database.Watch;
import snick.store.record.CutSelection;
import snick.store.table.CutTable;

/**
 * Checks a whole store: SQLite's own checks, what forces refer to, the sum of every row, then every
 * trace.
 */
public final class IntegrityCheck {
  private static final int MOST_PROBLEMS = 100;
  private static final int PAGE = 1_000;

  private final Database database;
  private final CutTable cuts;
  private final Watch watch;
  private final List<String> problems = new ArrayList<>();
  private long total;
  private long traces;
  private long damagedTraces;

  public IntegrityCheck(Database database, Watch watch) {
    this.database = database;
    this.cuts = new CutTable(database);
    this.watch = watch;
  }

  /** Runs SQLite's own checks and refuses a database that does not pass. */
  public static void requireSound(Database database) {
    List<String> problems = structure(database);
    if (!problems.isEmpty()) {
      throw database.failures().damaged(problems.get(0));
    }
  }

  private static List<String> structure(Database database) {
    List<String> problems = new ArrayList<>();
    database
        .query("PRAGMA integrity_check(" + MOST_PROBLEMS + ")")
        .list(row -> row.text("integrity_check"))
        .stream()
        .filter(line -> !line.equals("ok"))
        .forEach(problems::add);
    database
        .query("SELECT \"table\" AS t, rowid AS r, parent FROM pragma_foreign_key_check LIMIT 100")
        .list(
            row ->
                row.text("t")
                    + " row "
                    + row.whole("r")
                    + " refers to a missing "
                    + row.text("parent"))
        .forEach(problems::add);
    return problems;
  }

  public IntegrityReport run() {
    attempt(
        () ->
            database.watched(
                () -> watch.goesOn("checking tables", 0, 0),
                () -> {
                  problems.addAll(structure(database));
                  problems.addAll(new Migrations(database).strange());
                  problems.addAll(strayForces());
                  problems.addAll(database.sums().problems(MOST_PROBLEMS));
                  problems.addAll(
                      Photos.in(database.file().toAbsolutePath().getParent()).problems(database));
                }));
    attempt(this::checkTraces);
    List<String> first = problems.subList(0, Math.min(MOST_PROBLEMS, problems.size()));
    return new IntegrityReport(traces, damagedTraces, first);
  }

  /** A force names its cut and the later result that it is of: that must be one of this cut. */
  private List<String> strayForces() {
    return database
        .query(
            "SELECT f.id AS force, f.cut AS cut, q.id AS result, q.cut AS other FROM cut_force f"
                + " JOIN cut_result q ON q.id = f.result WHERE q.cut <> f.cut LIMIT "
                + MOST_PROBLEMS)
        .list(
            row ->
                "cut_force row "
                    + row.whole("force")
                    + " is of cut "
                    + row.whole("cut")
                    + ", but its result "
                    + row.whole("result")
                    + " is of cut "
                    + row.whole("other"));
  }

  private void attempt(Runnable part) {
    try {
      part.run();
    } catch (StoreException e) {
      problem(e);
    }
  }

  private void checkTraces() {
    total = cuts.count(CutSelection.all());
    long last = 0;
    List<Long> page = idsAfter(last);
    while (!page.isEmpty()) {
      page.forEach(this::checkTrace);
      last = page.get(page.size() - 1);
      page = idsAfter(last);
    }
  }

  private List<Long> idsAfter(long id) {
    return database
        .query("SELECT id FROM cut WHERE id > ? ORDER BY id LIMIT " + PAGE)
        .with(id)
        .list(row -> row.whole("id"));
  }

  private void checkTrace(long cutId) {
    watch.check("checking traces", traces, total);
    traces++;
    try {
      cuts.requireSoundTrace(cutId);
    } catch (StoreException e) {
      damagedTraces++;
      problem(e);
    }
  }

  private void problem(StoreException e) {
    if (problems.size() < MOST_PROBLEMS) {
      problems.add(e.getMessage());
    }
  }
}
