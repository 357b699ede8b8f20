package snick.store.table;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Collectors;
import snick.journal.Entry;
import snick.journal.FilamentLot;
import snick.journal.LotFigure;
import snick.phrase.NotAccepted;
import snick.store.database.Database;
import snick.store.database.Query;
import snick.store.database.Row;

/** Filament lots as rows. A lot's name is its key: a correction keeps it. */
public final class FilamentLotTable {
  private static final List<LotFigure> FIGURES = List.of(LotFigure.values());
  private static final String SELECT =
      "SELECT l.lot, d.material, "
          + EntryTable.COLUMNS
          + FIGURES.stream().map(f -> ", d." + f.key()).collect(Collectors.joining())
          + " FROM filament_lot l CROSS JOIN filament_lot_entry d ON d.filament_lot = l.id"
          + " CROSS JOIN entry e ON e.id = d.entry ";

  private static final String INSERT =
      "INSERT INTO filament_lot_entry (entry, filament_lot, material"
          + FIGURES.stream().map(f -> ", " + f.key()).collect(Collectors.joining())
          + ") VALUES (?, ?, ?"
          + ", ?".repeat(FIGURES.size())
          + ")";

  private final Database database;
  private final EntryTable entries;

  public FilamentLotTable(Database database) {
    this.database = database;
    entries = new EntryTable(database);
  }

  long id(String lot) {
    return database
        .query("SELECT id FROM filament_lot WHERE lot = ?")
        .text(lot)
        .first(row -> row.whole("id"))
        .orElseThrow(() -> unknown(lot));
  }

  private static NotAccepted unknown(String lot) {
    return new NotAccepted("refused.no_lot", "lot", lot);
  }

  public Entry<FilamentLot> add(FilamentLot lot, Instant recorded) {
    return addNew(lot, recorded)
        .orElseThrow(() -> new NotAccepted("refused.lot_exists", "lot", lot.lot()));
  }

  /** Adds a lot; empty if there is one of its name, which is kept. */
  public Optional<Entry<FilamentLot>> addNew(FilamentLot lot, Instant recorded) {
    OptionalLong id =
        database
            .query("INSERT INTO filament_lot (lot) VALUES (?) ON CONFLICT (lot) DO NOTHING")
            .text(lot.lot())
            .insertedIdIfNew();
    return id.isPresent()
        ? Optional.of(insert(id.getAsLong(), entries.add(recorded, lot)))
        : Optional.empty();
  }

  public Entry<FilamentLot> correct(FilamentLot lot, String why, Instant recorded) {
    Entry<FilamentLot> earlier = find(lot.lot()).orElseThrow(() -> unknown(lot.lot()));
    return insert(id(lot.lot()), entries.correct(earlier, recorded, why, lot));
  }

  private Entry<FilamentLot> insert(long id, Entry<FilamentLot> entry) {
    FilamentLot lot = entry.content();
    Query query = database.query(INSERT).whole(entry.id()).whole(id).text(lot.material());
    FIGURES.forEach(figure -> query.real(lot.figure(figure)));
    query.change();
    return entry;
  }

  /** The entry of a lot that stands. */
  public Optional<Entry<FilamentLot>> find(String lot) {
    return database
        .query(SELECT + "WHERE l.lot = ? ORDER BY e.id DESC LIMIT 1")
        .text(lot)
        .first(FilamentLotTable::map);
  }

  public List<Entry<FilamentLot>> history(String lot) {
    return database
        .query(SELECT + "WHERE l.lot = ? ORDER BY e.id")
        .text(lot)
        .list(FilamentLotTable::map);
  }

  public List<Entry<FilamentLot>> all() {
    return database
        .query(SELECT + "WHERE " + String.format(EntryTable.STANDS, "e.id") + " ORDER BY l.id")
        .list(FilamentLotTable::map);
  }

  private static Entry<FilamentLot> map(Row row) {
    return EntryTable.map(
        row,
        FilamentLot.of(
            row.text("lot"), row.text("material"), figure -> row.optionalReal(figure.key())));
  }
}
