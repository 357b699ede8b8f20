package snick;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import snick.phrase.Words;

/**
 * A language made from the English catalog: every letter is another one, so that a text in English
 * letters did not come from the catalog.
 */
public final class Pseudo {
  public static final String LANGUAGE = "en-x-pseudo";

  private static final int TO_OTHER_LETTERS = '\uff41' - 'a';
  private static final Pattern PART = Pattern.compile("\\{\\w+\\}|[A-Za-z]");
  private static final Pattern WORD = Pattern.compile("[A-Za-z]{2,}");
  private static final String UNITS = "gf|mN|mm|ms|Hz|kg|UTC";

  private Pseudo() {}

  public static Words words() {
    Map<String, String> texts = new TreeMap<>();
    Words.english().texts().forEach((key, text) -> texts.put(key, of(text)));
    return Words.of(LANGUAGE, texts);
  }

  /** {@code english} in that language; places for values stay. */
  public static String of(String english) {
    return PART.matcher(english)
        .replaceAll(
            part ->
                part.group().length() == 1
                    ? String.valueOf((char) (part.group().charAt(0) + TO_OTHER_LETTERS))
                    : part.group());
  }

  /** Nothing in {@code text} is English but units. */
  public static void assertNoEnglish(String what, String text) {
    assertNoEnglish(what, text, List.of());
  }

  /** Nothing in {@code text} is English but units and {@code names}. */
  public static void assertNoEnglish(String what, String text, List<String> names) {
    assertThat(english(text, names)).as(what + ": " + text).isEmpty();
  }

  /** What in {@code text} is English but units and {@code names}. */
  public static Set<String> english(String text, List<String> names) {
    String rest = text;
    for (String name : names) {
      rest = rest.replace(name, " ");
    }
    rest = rest.replaceAll("(?<![A-Za-z])(" + UNITS + ")(?![A-Za-z])", " ");
    return WORD.matcher(rest).results().map(word -> word.group()).collect(Collectors.toSet());
  }
}
