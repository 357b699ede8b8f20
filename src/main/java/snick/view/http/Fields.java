package snick.view.http;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import snick.journal.name.Field;
import snick.json.Json;
import snick.phrase.NotAccepted;
import snick.quantity.Worded;

/** The members of a JSON object that somebody sent. Every door throws {@link NotAccepted}. */
public record Fields(Map<String, Object> members) {
  /** The members of the object in {@code body}. */
  public static Fields of(byte[] body) {
    try {
      return new Fields(Json.object(body));
    } catch (IllegalArgumentException e) {
      throw new NotAccepted("refused.body_no_object", "example", "{\"side\":\"left\"}");
    }
  }

  /** Text; empty if absent or blank. */
  public Optional<String> text(String name) {
    Object value = members.get(name);
    if (value == null) {
      return Optional.empty();
    }
    if (value instanceof String text) {
      return Optional.of(text).filter(t -> !t.isBlank());
    }
    throw new NotAccepted("refused.must_be_text", "field", name);
  }

  /** Text that must be there. */
  public String needed(String name) {
    return text(name)
        .orElseThrow(() -> new NotAccepted("refused.missing", "field", Field.called(name)));
  }

  /** Texts; none if absent. */
  public List<String> texts(String name) {
    if (members.getOrDefault(name, List.of()) instanceof List<?> list
        && list.stream().allMatch(String.class::isInstance)) {
      return list.stream().map(String.class::cast).toList();
    }
    throw new NotAccepted("refused.must_be_list", "field", name);
  }

  /** Whether it is true; false if absent. */
  public boolean truth(String name) {
    Object value = members.getOrDefault(name, false);
    if (value instanceof Boolean truth) {
      return truth;
    }
    throw new NotAccepted("refused.must_be_truth", "field", name);
  }

  /** A number; empty if absent. */
  public OptionalDouble number(String name) {
    Object value = members.get(name);
    if (value == null) {
      return OptionalDouble.empty();
    }
    if (value instanceof Number number) {
      return OptionalDouble.of(number.doubleValue());
    }
    throw new NotAccepted("refused.must_be_number", "field", name);
  }

  /** One of the constants of {@code type}, by its name in lower case. */
  public <E extends Enum<E> & Worded> E neededWord(String name, Class<E> type) {
    String word = needed(name);
    return Worded.named(type, word)
        .orElseThrow(() -> new NotAccepted("refused.none_of", "field", name, "words", words(type)));
  }

  private static <E extends Enum<E> & Worded> String words(Class<E> type) {
    return Arrays.stream(type.getEnumConstants())
        .map(Worded::word)
        .collect(Collectors.joining(", "));
  }
}
