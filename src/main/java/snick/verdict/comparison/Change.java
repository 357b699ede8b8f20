package snick.verdict.comparison;

import java.util.Locale;

/** What became of the force from the first group to the second. Never 'same'. */
public enum Change {
  /** The second needs less force: keener. */
  LOWER,
  /** The second needs more force. */
  HIGHER,
  /** No difference was shown; there may be one that these cuts cannot show. */
  NO_DIFFERENCE_SHOWN,
  /** The difference is shown to be smaller than the margin. */
  EQUIVALENT;

  /** The word used in JSON, for example {@code no_difference_shown}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
