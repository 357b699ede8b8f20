package snick.store.record;

import java.util.OptionalDouble;
import snick.journal.Stage;
import snick.store.database.Row;

/**
 * Where a cut belongs.
 *
 * @param session name of the session
 * @param stage stage in it
 * @param placeMm distance from the heel, mm; empty if not noted
 */
public record CutPlace(String session, Stage stage, OptionalDouble placeMm) {
  public static CutPlace map(String session, Row row) {
    return new CutPlace(
        session,
        new Stage(row.integer("position"), row.text("stage_name")),
        row.optionalReal("place_mm"));
  }
}
