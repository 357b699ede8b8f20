package snick.quantity;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

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

  /** The same as it is typed, for example {@code burr-seen}. */
  default String hyphenated() {
    return word().replace('_', '-');
  }

  /** The constant of {@code type} that is written as {@code word}; empty if there is none. */
  static <E extends Enum<E> & Worded> Optional<E> named(Class<E> type, String word) {
    return Arrays.stream(type.getEnumConstants()).filter(e -> e.word().equals(word)).findFirst();
  }
}
