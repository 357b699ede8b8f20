package snick.store.table;

import java.util.List;
import java.util.stream.Stream;
import snick.journal.FilamentLot;
import snick.journal.LotFigure;
import snick.phrase.NotAccepted;
import snick.store.database.Database;
import snick.store.database.Query;
import snick.store.database.Row;

/** Filament lots as rows. */
public final class FilamentLotTable extends NamedTable<FilamentLot> {
  private static final List<LotFigure> FIGURES = List.of(LotFigure.values());

  public FilamentLotTable(Database database) {
    super(database, "filament_lot", "lot", "id", columns());
  }

  private static List<String> columns() {
    return Stream.concat(Stream.of("material"), FIGURES.stream().map(LotFigure::key)).toList();
  }

  @Override
  public String name(FilamentLot lot) {
    return lot.lot();
  }

  @Override
  NotAccepted unknown(String lot) {
    return new NotAccepted("refused.no_lot", "lot", lot);
  }

  @Override
  NotAccepted known(String lot) {
    return new NotAccepted("refused.lot_exists", "lot", lot);
  }

  @Override
  Query noted(FilamentLot lot, Query query) {
    query.with(lot.material());
    FIGURES.forEach(figure -> query.with(lot.figure(figure)));
    return query;
  }

  @Override
  FilamentLot read(Row row) {
    return FilamentLot.of(
        row.text("lot"), row.text("material"), figure -> row.optionalReal(figure.key()));
  }
}
