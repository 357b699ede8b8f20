package snick.cli.terminal;

import snick.phrase.Phrase;
import snick.phrase.Words;

/** Phrases of the catalog as the command line says them: in English. */
public final class Said {
  private static final Words ENGLISH = Words.english();

  private Said() {}

  /** For programs: as it stands. */
  public static String raw(Phrase phrase) {
    return ENGLISH.say(phrase);
  }

  /** For people: names in it are made inert. */
  public static String of(Phrase phrase) {
    return PlainText.inert(raw(phrase));
  }
}
