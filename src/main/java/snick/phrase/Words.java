package snick.phrase;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.ResourceBundle;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** What a person reads, one catalog a language. Immutable. */
public final class Words {
  private static final String ENGLISH = "snick.words.en";
  private static final String GLOSSARY = "glossary.";
  private static final Pattern PLACE = Pattern.compile("\\{(\\w+)\\}");

  private final String language;
  private final Map<String, String> texts;

  private Words(String language, Map<String, String> texts) {
    this.language = language;
    this.texts = Map.copyOf(texts);
  }

  /** The catalog that is always whole. */
  public static Words english() {
    ResourceBundle read = ResourceBundle.getBundle(ENGLISH, Locale.ROOT);
    Map<String, String> texts = new TreeMap<>();
    read.keySet().forEach(key -> texts.put(key, read.getString(key)));
    return new Words("en", texts);
  }

  /**
   * A translation of the English catalog.
   *
   * @param language as in BCP 47
   * @param translated by key; what is missing stays English
   */
  public static Words of(String language, Map<String, String> translated) {
    Map<String, String> texts = new TreeMap<>(english().texts);
    texts.putAll(translated);
    return new Words(language, texts);
  }

  /** The text {@code key} with {@code values} in their places: name, value, name, value, … */
  public String say(String key, Object... values) {
    return say(Phrase.of(key, values));
  }

  /** {@code phrase} in this language. */
  public String say(Phrase phrase) {
    String text = texts.get(phrase.key());
    if (text == null) {
      throw new IllegalArgumentException("the catalog lacks " + phrase.key());
    }
    return PLACE
        .matcher(text)
        .replaceAll(
            place ->
                Matcher.quoteReplacement(
                    said(phrase.values().getOrDefault(place.group(1), place.group()))));
  }

  private String said(Object value) {
    if (value instanceof List<?> list) {
      return list.stream().map(this::said).collect(Collectors.joining(", "));
    }
    return value instanceof Phrase phrase ? say(phrase) : String.valueOf(value);
  }

  /** One or many: {@code key.one} and {@code key.many}, the number as {@code {n}}. */
  public String count(String key, int n, Object... values) {
    return say(Phrase.count(key, n, values));
  }

  /** What a constant of {@code kind} is called. */
  public String named(String kind, Enum<?> constant) {
    return say(Phrase.named(kind, constant));
  }

  /**
   * A word of measuring or statistics and what it says, in one sentence.
   *
   * @param key its name in addresses
   */
  public record Entry(String key, String word, String meaning) {}

  /** The words that need an explanation, in the order of their keys. */
  public List<Entry> glossary() {
    return texts.keySet().stream()
        .filter(key -> key.startsWith(GLOSSARY) && !key.endsWith("_is"))
        .sorted()
        .map(key -> new Entry(key.substring(GLOSSARY.length()), say(key), say(key + "_is")))
        .toList();
  }

  /** The language, as in BCP 47. */
  public String language() {
    return language;
  }

  /** Every text by its key. Places for values stand in braces: {@code {name}}. */
  public Map<String, String> texts() {
    return texts;
  }
}
