package snick.journal;

import snick.journal.name.EnumWords;
import snick.phrase.NotAccepted;
import snick.quantity.Worded;

/** Which way the edge moves over the abrasive. */
public enum EdgeDirection implements Worded {
  /** The edge goes first, as if to shave the abrasive. */
  EDGE_LEADING,
  /** The spine goes first, as in stropping. */
  EDGE_TRAILING,
  /** To and fro. */
  ALTERNATING;

  /**
   * The constant written as {@code word}, in any case; its beginning or last part is enough if no
   * other has it.
   *
   * @throws NotAccepted if it is none; the message lists those there are
   */
  public static EdgeDirection parse(String word) {
    return EnumWords.parse("edge direction", EdgeDirection.class, word);
  }
}
