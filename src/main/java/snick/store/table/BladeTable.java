package snick.store.table;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import snick.journal.Blade;
import snick.journal.Entry;
import snick.phrase.NotAccepted;
import snick.store.database.Database;
import snick.store.database.Row;

/** Blades as rows. A blade's label is its key: a correction keeps it. */
public final class BladeTable {
  /** Blades are few, entries many: CROSS keeps SQLite from walking the entries to find blades. */
  private static final String FEW_FIRST =
      " FROM blade b CROSS JOIN blade_entry d ON d.blade = b.id"
          + " CROSS JOIN entry e ON e.id = d.entry ";

  private static final String SELECT =
      "SELECT b.label, d.steel, d.hardness_hrc, d.edge_angle_degrees, d.thickness_behind_edge_mm,"
          + " d.edge_length_mm, d.margin_gf, d.notes, "
          + EntryTable.COLUMNS
          + FEW_FIRST;

  /** All that a label stands for: the blade and those that were merged into it. */
  static final String IDS =
      "(SELECT w.id FROM blade w JOIN blade g ON coalesce(w.merged_into, w.id)"
          + " = coalesce(g.merged_into, g.id) WHERE g.label = ?)";

  private static final String OF_LABEL =
      "WHERE b.id = (SELECT coalesce(merged_into, id) FROM blade WHERE label = ?)";

  private final Database database;
  private final EntryTable entries;

  public BladeTable(Database database) {
    this.database = database;
    entries = new EntryTable(database);
  }

  /** Of the blade that a label stands for: one that was merged into another is that one. */
  public long id(String label) {
    return database
        .query("SELECT coalesce(merged_into, id) AS id FROM blade WHERE label = ?")
        .text(label)
        .first(row -> row.whole("id"))
        .orElseThrow(() -> unknown(label));
  }

  private static NotAccepted unknown(String label) {
    return new NotAccepted("refused.no_blade", "blade", label);
  }

  public Entry<Blade> add(Blade blade, Instant recorded) {
    return addNew(blade, recorded)
        .orElseThrow(() -> new NotAccepted("refused.blade_exists", "blade", blade.label()));
  }

  /** Adds a blade; empty if there is one of its label, which is kept. */
  public Optional<Entry<Blade>> addNew(Blade blade, Instant recorded) {
    OptionalLong id =
        database
            .query("INSERT INTO blade (label) VALUES (?) ON CONFLICT (label) DO NOTHING")
            .text(blade.label())
            .insertedIdIfNew();
    return id.isPresent()
        ? Optional.of(insert(id.getAsLong(), entries.add(recorded, blade)))
        : Optional.empty();
  }

  public Entry<Blade> correct(Blade blade, String why, Instant recorded) {
    Entry<Blade> earlier = find(blade.label()).orElseThrow(() -> unknown(blade.label()));
    return insert(id(blade.label()), entries.correct(earlier, recorded, why, blade));
  }

  public void rename(String label, String newLabel) {
    if (find(newLabel).isPresent()) {
      throw new NotAccepted("refused.blade_exists_to_merge", "blade", newLabel);
    }
    database
        .query("UPDATE blade SET label = ? WHERE label = ?")
        .text(newLabel)
        .text(label)
        .change();
  }

  public void merge(String from, String into) {
    database
        .query("UPDATE blade SET merged_into = ?1 WHERE id = ?2 OR merged_into = ?2")
        .whole(id(into))
        .whole(id(from))
        .change();
  }

  private Entry<Blade> insert(long id, Entry<Blade> entry) {
    Blade blade = entry.content();
    database
        .query(
            "INSERT INTO blade_entry (entry, blade, steel, hardness_hrc, edge_angle_degrees,"
                + " thickness_behind_edge_mm, edge_length_mm, margin_gf, notes)"
                + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)")
        .whole(entry.id())
        .whole(id)
        .text(blade.steel())
        .real(blade.hardnessHrc())
        .real(blade.edgeAngleDegrees())
        .real(blade.thicknessBehindEdgeMm())
        .real(blade.edgeLengthMm())
        .real(blade.marginGf())
        .text(blade.notes())
        .change();
    return entry;
  }

  /** The entry of a blade that stands. */
  public Optional<Entry<Blade>> find(String label) {
    return database
        .query(SELECT + OF_LABEL + " ORDER BY e.id DESC LIMIT 1")
        .text(label)
        .first(BladeTable::map);
  }

  public List<Entry<Blade>> history(String label) {
    return database.query(SELECT + OF_LABEL + " ORDER BY e.id").text(label).list(BladeTable::map);
  }

  public List<Entry<Blade>> all() {
    return database
        .query(
            SELECT
                + "WHERE b.merged_into IS NULL AND "
                + String.format(EntryTable.STANDS, "e.id")
                + " ORDER BY b.id")
        .list(BladeTable::map);
  }

  private static Entry<Blade> map(Row row) {
    return EntryTable.map(
        row,
        new Blade(
            row.text("label"),
            row.text("steel"),
            row.optionalReal("hardness_hrc"),
            row.optionalReal("edge_angle_degrees"),
            row.optionalReal("thickness_behind_edge_mm"),
            row.optionalReal("edge_length_mm"),
            row.optionalReal("margin_gf"),
            row.text("notes")));
  }
}
