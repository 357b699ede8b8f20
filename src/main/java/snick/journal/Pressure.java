package snick.journal;

import snick.journal.name.EnumWords;
import snick.phrase.NotAccepted;
import snick.quantity.Worded;

/** How light the hand was, in the sharpener's own judgement. */
public enum Pressure implements Worded {
  VERY_LIGHT,
  LIGHT,
  MEDIUM,
  FIRM;

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
