package snick.report.sheet;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;

/** One JSON object being read; what is missing or of the wrong kind is named with its path. */
final class JsonNode {
  private final Map<?, ?> fields;
  private final String path;

  private JsonNode(Map<?, ?> fields, String path) {
    this.fields = fields;
    this.path = path;
  }

  /**
   * The object that {@code text} is.
   *
   * @throws IllegalArgumentException if it is none
   */
  static JsonNode parse(String text) {
    try {
      return new JsonNode(JSON.std.mapFrom(text), "");
    } catch (IOException e) {
      throw new IllegalArgumentException("not a JSON object: " + e.getMessage(), e);
    }
  }

  private IllegalArgumentException wrong(String name, String wanted) {
    return new IllegalArgumentException(path + name + " is missing or not " + wanted);
  }

  String text(String name) {
    return optionalText(name).orElseThrow(() -> wrong(name, "a text"));
  }

  Optional<String> optionalText(String name) {
    return fields.get(name) instanceof String text ? Optional.of(text) : Optional.empty();
  }

  double number(String name) {
    if (fields.get(name) instanceof Number number) {
      return number.doubleValue();
    }
    throw wrong(name, "a number");
  }

  boolean has(String name) {
    return fields.get(name) != null;
  }

  long whole(String name) {
    Object value = fields.get(name);
    if (value instanceof Integer || value instanceof Long) {
      return ((Number) value).longValue();
    }
    throw wrong(name, "a whole number");
  }

  boolean truth(String name) {
    if (fields.get(name) instanceof Boolean value) {
      return value;
    }
    throw wrong(name, "true or false");
  }

  JsonNode object(String name) {
    if (fields.get(name) instanceof Map<?, ?> map) {
      return new JsonNode(map, path + name + ".");
    }
    throw wrong(name, "an object");
  }

  List<JsonNode> objects(String name) {
    if (!(fields.get(name) instanceof List<?> list)) {
      throw wrong(name, "a list");
    }
    return IntStream.range(0, list.size())
        .mapToObj(
            i -> {
              if (list.get(i) instanceof Map<?, ?> map) {
                return new JsonNode(map, path + name + "[" + i + "].");
              }
              throw wrong(name + "[" + i + "]", "an object");
            })
        .toList();
  }
}
