package snick.verdict.burr;

import snick.quantity.Worded;
import snick.verdict.comparison.Reason;

/**
 * One piece of evidence on a residual burr.
 *
 * @param kind what kind
 * @param says what it says
 * @param reason in words
 */
public record BurrClue(Kind kind, Says says, Reason reason) {
  /** Kinds of evidence; each counts once. */
  public enum Kind implements Worded {
    /** A burr was seen or felt, or was not on both sides. */
    INSPECTION,
    /** Thin paper. */
    PAPER,
    /** One side differs from the other. */
    SIDES,
    /** Scatter along the edge beyond the rig's. */
    SCATTER,
    /** First cut on a spot against the second. */
    FIRST_CUT,
    /** Dips in the trace. */
    DIPS
  }

  /** What a clue says. */
  public enum Says implements Worded {
    BURR,
    NO_BURR,
    NOTHING
  }
}
