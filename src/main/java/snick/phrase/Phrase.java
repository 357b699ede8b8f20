package snick.phrase;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;

/**
 * What is said to a person, before it is put into a language: a key of the catalog and the values
 * for its places. Equal phrases say the same.
 *
 * @param key of the catalog
 * @param values by place: a phrase, a list of them, a number or a text that stays as it is
 */
public record Phrase(String key, Map<String, Object> values) {
  public Phrase {
    values = Map.copyOf(values);
  }

  /** The text {@code key} with {@code values} in their places: name, value, name, value, … */
  public static Phrase of(String key, Object... values) {
    Map<String, Object> named = new LinkedHashMap<>();
    for (int i = 0; i < values.length; i += 2) {
      named.put((String) values[i], values[i + 1]);
    }
    return new Phrase(key, named);
  }

  /** The same with {@code value} in the place {@code name}. */
  public Phrase with(String name, Object value) {
    Map<String, Object> more = new LinkedHashMap<>(values);
    more.put(name, value);
    return new Phrase(key, more);
  }

  /** One or many: {@code key.one} and {@code key.many}, the number as {@code {n}}. */
  public static Phrase count(String key, int n, Object... values) {
    Object[] all = Arrays.copyOf(values, values.length + 2);
    all[values.length] = "n";
    all[values.length + 1] = n;
    return of(key + (n == 1 ? ".one" : ".many"), all);
  }

  /** What a constant of {@code kind} is called. */
  public static Phrase named(String kind, Enum<?> constant) {
    return of(kind + "." + constant.name().toLowerCase(Locale.ROOT));
  }
}
