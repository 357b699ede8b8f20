package snick.journal;

import java.util.Locale;

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
}
