package snick.quantity;

import java.util.Locale;

/** A constant that has a word of its own in JSON, in files and in the store. */
public interface Worded {
  /** Its name in the program. */
  String name();

  /** The word for programs, for example {@code burr_seen}. */
  default String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The same in plain words, for example {@code burr seen}. */
  default String plain() {
    return word().replace('_', ' ');
  }
}
