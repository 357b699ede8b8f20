package snick.view.http;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import snick.journal.name.NotAccepted;

/** JSON out and in. What is absent is left out. */
public final class Json {
  private Json() {}

  /** An object of names and values in turn. Empty optionals are left out. */
  public static Map<String, Object> object(Object... namesAndValues) {
    Map<String, Object> object = new LinkedHashMap<>();
    for (int i = 0; i < namesAndValues.length; i += 2) {
      put(object, (String) namesAndValues[i], namesAndValues[i + 1]);
    }
    return object;
  }

  private static void put(Map<String, Object> object, String name, Object value) {
    if (value instanceof Optional<?> optional) {
      optional.ifPresent(v -> object.put(name, v));
    } else if (value instanceof OptionalDouble optional) {
      optional.ifPresent(v -> object.put(name, v));
    } else if (value instanceof OptionalLong optional) {
      optional.ifPresent(v -> object.put(name, v));
    } else {
      object.put(name, value);
    }
  }

  public static String text(Object document) {
    try {
      return JSON.std.asString(document);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * The object in {@code body}.
   *
   * @throws NotAccepted if it is not one JSON object
   */
  public static Map<String, Object> read(byte[] body) {
    try {
      return Optional.ofNullable(JSON.std.mapFrom(body)).orElseThrow(Json::notAnObject);
    } catch (IOException e) {
      throw notAnObject();
    }
  }

  private static NotAccepted notAnObject() {
    return new NotAccepted("the body is not a JSON object: send for example {\"side\":\"left\"}");
  }
}
