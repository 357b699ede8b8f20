package snick.journal;

import java.time.Instant;
import snick.journal.name.Field;

/**
 * An entry that was noted by mistake, or a cut that was moved to another session. Only ever a
 * correction: it takes the place of the entry that it withdraws, which stays in the record.
 *
 * @param at when it was withdrawn
 * @param stage name of the stage
 */
public record Withdrawn(Instant at, String stage) implements StageEntry {
  public Withdrawn {
    stage = Field.name("stage name", stage);
  }
}
