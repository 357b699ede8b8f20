package snick.store;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import snick.journal.Blade;
import snick.journal.Entry;
import snick.journal.NotAccepted;

/** Blades as rows. A blade's label is its key: a correction keeps it. */
final class BladeTable {
  private static final String SELECT =
      "SELECT b.label, d.steel, d.hardness_hrc, d.edge_angle_degrees, d.thickness_behind_edge_mm,"
          + " d.edge_length_mm, d.notes, "
          + EntryTable.COLUMNS
          + " FROM blade b JOIN blade_entry d ON d.blade = b.id JOIN entry e ON e.id = d.entry ";

  private final Database database;
  private final EntryTable entries;

  BladeTable(Database database) {
    this.database = database;
    entries = new EntryTable(database);
  }

  long id(String label) {
    return database
        .query("SELECT id FROM blade WHERE label = ?")
        .text(label)
        .first(row -> row.whole("id"))
        .orElseThrow(() -> unknown(label));
  }

  private static NotAccepted unknown(String label) {
    return new NotAccepted("blade '" + label + "' is not in the journal: add it first");
  }

  Entry<Blade> add(Blade blade, Instant recorded) {
    return addNew(blade, recorded)
        .orElseThrow(
            () ->
                new NotAccepted(
                    "blade '"
                        + blade.label()
                        + "' is already in the journal: correct it, or choose a label"));
  }

  /** Adds a blade; empty if there is one of its label, which is kept. */
  Optional<Entry<Blade>> addNew(Blade blade, Instant recorded) {
    OptionalLong id =
        database
            .query("INSERT INTO blade (label) VALUES (?) ON CONFLICT (label) DO NOTHING")
            .text(blade.label())
            .insertedIdIfNew();
    return id.isPresent()
        ? Optional.of(insert(id.getAsLong(), entries.add(recorded, blade)))
        : Optional.empty();
  }

  Entry<Blade> correct(Blade blade, String why, Instant recorded) {
    Entry<Blade> earlier = find(blade.label()).orElseThrow(() -> unknown(blade.label()));
    return insert(id(blade.label()), entries.correct(earlier, recorded, why, blade));
  }

  private Entry<Blade> insert(long id, Entry<Blade> entry) {
    Blade blade = entry.content();
    database
        .query("INSERT INTO blade_entry VALUES (?, ?, ?, ?, ?, ?, ?, ?)")
        .whole(entry.id())
        .whole(id)
        .text(blade.steel())
        .real(blade.hardnessHrc())
        .real(blade.edgeAngleDegrees())
        .real(blade.thicknessBehindEdgeMm())
        .real(blade.edgeLengthMm())
        .text(blade.notes())
        .change();
    return entry;
  }

  /** The entry of a blade that stands. */
  Optional<Entry<Blade>> find(String label) {
    return database
        .query(SELECT + "WHERE b.label = ? ORDER BY e.id DESC LIMIT 1")
        .text(label)
        .first(BladeTable::map);
  }

  List<Entry<Blade>> history(String label) {
    return database
        .query(SELECT + "WHERE b.label = ? ORDER BY e.id")
        .text(label)
        .list(BladeTable::map);
  }

  List<Entry<Blade>> all() {
    return database
        .query(SELECT + "WHERE " + String.format(EntryTable.STANDS, "e.id") + " ORDER BY b.id")
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
            row.text("notes")));
  }
}
