package snick.journal;

import java.util.Locale;
import snick.journal.name.EnumWords;
import snick.phrase.NotAccepted;

/** A side of the blade, seen from the spine with the tip pointing away. */
public enum Side {
  LEFT,
  RIGHT,
  BOTH;

  /** The word used in JSON and in the store, for example {@code left}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Whether this side is {@code side} or takes it in. */
  public boolean covers(Side side) {
    return this == side || this == BOTH;
  }

  /**
   * The constant written as {@code word}, in any case; its beginning or last part is enough if no
   * other has it.
   *
   * @throws NotAccepted if it is none; the message lists those there are
   */
  public static Side parse(String word) {
    return EnumWords.parse("side", Side.class, word);
  }
}
