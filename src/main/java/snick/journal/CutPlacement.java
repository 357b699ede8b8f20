package snick.journal;

import java.time.Instant;
import java.util.OptionalDouble;
import snick.journal.name.Field;
import snick.phrase.NotAccepted;

/**
 * Where on the edge a recorded cut was made.
 *
 * @param at when the cut was made
 * @param stage name of the stage
 * @param cut key of the cut in the store, 1 or more
 * @param placeMm distance from the heel, 0 to 2000 mm; empty if not noted
 */
public record CutPlacement(Instant at, String stage, long cut, OptionalDouble placeMm)
    implements StageEntry {
  public CutPlacement {
    stage = Field.name("stage name", stage);
    if (cut < 1) {
      throw new NotAccepted("refused.no_cut_number", "n", cut);
    }
    Field.within("place along the edge", placeMm, 0, 2000, "mm");
  }
}
