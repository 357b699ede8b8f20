package snick.verdict.comparison;

import snick.quantity.Worded;

/** What became of the force from the first group to the second. Never 'same'. */
public enum Change implements Worded {
  /** The second needs less force: keener. */
  LOWER,
  /** The second needs more force. */
  HIGHER,
  /** No difference was shown; there may be one that these cuts cannot show. */
  NO_DIFFERENCE_SHOWN,
  /** The difference is shown to be smaller than the margin. */
  EQUIVALENT;
}
