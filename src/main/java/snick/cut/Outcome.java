package snick.cut;

import java.util.Locale;
import snick.quantity.Worded;

/** How one loading of the filament ended. Every event ends as exactly one of these. */
public enum Outcome implements Worded {
  /** The filament parted at once: there is a cut-through force. */
  SEVERED,
  /** The filament parted in two or more distinct steps. */
  PARTED_IN_STEPS,
  /** The load was taken away without parting. */
  RELEASED,
  /** The converter stood at the end of its range during the event. */
  OVERRANGE,
  /** The stream ended or broke before the event did. */
  TRUNCATED,
  /** Too disturbed to say which of the others it was. */
  DISTURBED;

  /**
   * The outcome of a word.
   *
   * @throws IllegalArgumentException if there is none
   */
  public static Outcome ofWord(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT));
  }
}
