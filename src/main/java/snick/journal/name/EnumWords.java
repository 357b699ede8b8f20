package snick.journal.name;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.quantity.Worded;

/** Reads the words of an enumeration. */
public final class EnumWords {
  private EnumWords() {}

  /**
   * The constant whose name is {@code word} in any case, with blanks or hyphens for underscores, or
   * whose name begins or ends with it if only one does.
   */
  public static <E extends Enum<E> & Worded> E parse(String field, Class<E> kind, String word) {
    String name = word.strip().toUpperCase(Locale.ROOT).replaceAll("[ -]", "_");
    E[] all = kind.getEnumConstants();
    for (E constant : all) {
      if (constant.name().equals(name)) {
        return constant;
      }
    }
    E[] close =
        Arrays.stream(all)
            .filter(c -> !name.isEmpty())
            .filter(c -> c.name().startsWith(name) || c.name().endsWith("_" + name))
            .toArray(n -> Arrays.copyOf(all, n));
    if (close.length != 1) {
      throw new NotAccepted(
          Phrase.of("refused.word_not_known")
              .with("field", Field.called(field))
              .with("word", Field.shown(word))
              .with("allowed", allowed(all)));
    }
    return close[0];
  }

  private static <E extends Enum<E> & Worded> String allowed(E[] all) {
    return Arrays.stream(all).map(Worded::hyphenated).collect(Collectors.joining(", "));
  }
}
