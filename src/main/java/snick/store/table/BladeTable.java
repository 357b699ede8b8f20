package snick.store.table;

import java.util.List;
import snick.journal.Blade;
import snick.phrase.NotAccepted;
import snick.store.database.Database;
import snick.store.database.Query;
import snick.store.database.Row;

/** Blades as rows. One that was merged into another is that one. */
public final class BladeTable extends NamedTable<Blade> {
  /** All that a label stands for: the blade and those that were merged into it. */
  static final String IDS =
      "(SELECT w.id FROM blade w JOIN blade g ON coalesce(w.merged_into, w.id)"
          + " = coalesce(g.merged_into, g.id) WHERE g.label = ?)";

  private static final List<String> COLUMNS =
      List.of(
          "steel",
          "hardness_hrc",
          "edge_angle_degrees",
          "thickness_behind_edge_mm",
          "edge_length_mm",
          "margin_gf",
          "notes");

  public BladeTable(Database database) {
    super(database, "blade", "label", "coalesce(merged_into, id)", COLUMNS);
  }

  @Override
  public String name(Blade blade) {
    return blade.label();
  }

  @Override
  NotAccepted unknown(String label) {
    return new NotAccepted("refused.no_blade", "blade", label);
  }

  @Override
  NotAccepted known(String label) {
    return new NotAccepted("refused.blade_exists", "blade", label);
  }

  public void rename(String label, String newLabel) {
    if (find(newLabel).isPresent()) {
      throw new NotAccepted("refused.blade_exists_to_merge", "blade", newLabel);
    }
    database.query("UPDATE blade SET label = ? WHERE label = ?").with(newLabel, label).change();
  }

  public void merge(String from, String into) {
    database
        .query("UPDATE blade SET merged_into = ?1 WHERE id = ?2 OR merged_into = ?2")
        .with(id(into), id(from))
        .change();
  }

  @Override
  Query noted(Blade blade, Query query) {
    return query.with(
        blade.steel(),
        blade.hardnessHrc(),
        blade.edgeAngleDegrees(),
        blade.thicknessBehindEdgeMm(),
        blade.edgeLengthMm(),
        blade.marginGf(),
        blade.notes());
  }

  @Override
  Blade read(Row row) {
    return new Blade(
        row.text("label"),
        row.text("steel"),
        row.optionalReal("hardness_hrc"),
        row.optionalReal("edge_angle_degrees"),
        row.optionalReal("thickness_behind_edge_mm"),
        row.optionalReal("edge_length_mm"),
        row.optionalReal("margin_gf"),
        row.text("notes"));
  }
}
