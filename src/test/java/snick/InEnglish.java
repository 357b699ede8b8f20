package snick;

import snick.phrase.Phrase;
import snick.phrase.Words;

/** What a person reads where the catalog is the English one. */
public final class InEnglish {
  private static final Words ENGLISH = Words.english();

  private InEnglish() {}

  public static String told(Phrase phrase) {
    return ENGLISH.say(phrase);
  }
}
