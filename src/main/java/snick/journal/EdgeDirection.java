package snick.journal;

import java.util.Locale;

/** Which way the edge moves over the abrasive. */
public enum EdgeDirection {
  /** The edge goes first, as if to shave the abrasive. */
  EDGE_LEADING,
  /** The spine goes first, as in stropping. */
  EDGE_TRAILING,
  /** To and fro. */
  ALTERNATING;

  /** The word used in JSON and in the store, for example {@code edge_leading}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
