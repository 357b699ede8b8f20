package snick.journal;

import java.util.Locale;
import snick.journal.name.EnumWords;
import snick.phrase.NotAccepted;

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
