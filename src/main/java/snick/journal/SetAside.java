package snick.journal;

import java.time.Instant;

/**
 * A cut that no longer counts in figures and verdicts. It stays in the record with its trace.
 *
 * @param at when it was set aside
 * @param cut key of the cut in the store, 1 or more
 * @param reason why, 1 to 4000 characters
 */
public record SetAside(Instant at, long cut, String reason) {
  public SetAside {
    if (cut < 1) {
      throw new NotAccepted("cut " + cut + " is below 1");
    }
    reason = Field.reason("reason for setting cut " + cut + " aside", reason);
  }
}
