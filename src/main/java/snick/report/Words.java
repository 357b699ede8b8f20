package snick.report;

import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Properties;
import java.util.TreeMap;

/** What a person reads on the page, one catalog a language. Immutable. */
public final class Words {
  private final String language;
  private final Map<String, String> texts;

  private Words(String language, Map<String, String> texts) {
    this.language = language;
    this.texts = Map.copyOf(texts);
  }

  /** The catalog that is always whole. */
  public static Words english() {
    Properties read = new Properties();
    try (Reader in =
        new InputStreamReader(
            Words.class.getResourceAsStream("/snick/words/en.properties"),
            StandardCharsets.UTF_8)) {
      read.load(in);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    Map<String, String> texts = new TreeMap<>();
    read.stringPropertyNames().forEach(key -> texts.put(key, read.getProperty(key)));
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

  /** The language, as in BCP 47. */
  public String language() {
    return language;
  }

  /** Every text by its key. Places for values stand in braces: {@code {name}}. */
  public Map<String, String> texts() {
    return texts;
  }
}
