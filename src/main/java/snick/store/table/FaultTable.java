package snick.store.table;

import java.util.List;
import snick.store.database.Database;
import snick.store.record.Fault;

/** Faults as rows, one for each subject and kind. */
public final class FaultTable {
  private final Database database;

  public FaultTable(Database database) {
    this.database = database;
  }

  public void add(Fault fault) {
    database
        .query(
            "INSERT INTO fault (subject, kind, detail, count, first_utc_ns, last_utc_ns)"
                + " VALUES (?, ?, ?, ?, ?, ?) ON CONFLICT DO UPDATE SET"
                + " detail = iif(excluded.last_utc_ns >= last_utc_ns, excluded.detail, detail),"
                + " count = count + excluded.count,"
                + " first_utc_ns = min(first_utc_ns, excluded.first_utc_ns),"
                + " last_utc_ns = max(last_utc_ns, excluded.last_utc_ns)")
        .text(fault.subject())
        .text(fault.kind())
        .text(fault.detail())
        .whole(fault.count())
        .instant(fault.first())
        .instant(fault.last())
        .change();
  }

  public List<Fault> all() {
    return database
        .query("SELECT * FROM fault ORDER BY last_utc_ns DESC, subject, kind")
        .list(
            row ->
                new Fault(
                    row.text("subject"),
                    row.text("kind"),
                    row.text("detail"),
                    row.whole("count"),
                    row.instant("first_utc_ns"),
                    row.instant("last_utc_ns")));
  }
}
