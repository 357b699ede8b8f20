package snick.journal;

import java.time.Instant;
import snick.journal.name.Field;
import snick.phrase.NotAccepted;

/**
 * A cut that no longer counts in figures and verdicts, or counts again. It stays in the record with
 * its trace.
 *
 * @param at when that was decided
 * @param cut key of the cut in the store, 1 or more
 * @param reason why, 1 to 4000 characters
 * @param countsAgain whether an earlier such act is taken back
 */
public record SetAside(Instant at, long cut, String reason, boolean countsAgain) {
  public SetAside {
    if (cut < 1) {
      throw new NotAccepted("refused.no_cut_number", "n", cut);
    }
    reason = Field.reason("reason for setting the cut aside", reason);
  }

  /** A cut that no longer counts. */
  public SetAside(Instant at, long cut, String reason) {
    this(at, cut, reason, false);
  }

  /** A cut that counts again. */
  public static SetAside takenBack(Instant at, long cut, String reason) {
    return new SetAside(at, cut, reason, true);
  }
}
