package snick.journal;

import java.util.Locale;
import snick.journal.name.EnumWords;
import snick.phrase.NotAccepted;

/** How light the hand was, in the sharpener's own judgement. */
public enum Pressure {
  VERY_LIGHT,
  LIGHT,
  MEDIUM,
  FIRM;

  /** The word used in JSON and in the store, for example {@code very_light}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /**
   * The constant written as {@code word}, in any case; its beginning or last part is enough if no
   * other has it.
   *
   * @throws NotAccepted if it is none; the message lists those there are
   */
  public static Pressure parse(String word) {
    return EnumWords.parse("pressure", Pressure.class, word);
  }
}
