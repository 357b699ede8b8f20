package snick.json;

import java.lang.reflect.Constructor;
import java.lang.reflect.RecordComponent;
import java.time.Instant;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import snick.quantity.Worded;

/**
 * A record as members of a JSON object: the name of each component is told once, and written and
 * read by it. Immutable.
 */
public final class JsonForm<T extends Record> {
  private final Class<T> type;
  private final List<Part<?>> parts;

  /**
   * How one component stands in the object.
   *
   * @param writing its members, mostly one
   * @param reading its value, from the whole object
   */
  public record Part<V>(Function<V, Map<String, Object>> writing, Function<JsonNode, V> reading) {
    private Map<String, Object> written(Object value) {
      @SuppressWarnings("unchecked")
      V own = (V) value;
      return writing.apply(own);
    }
  }

  private JsonForm(Class<T> type, List<Part<?>> parts) {
    this.type = type;
    this.parts = parts;
  }

  /** The form whose parts stand for the components of {@code type}, in their order. */
  public static <T extends Record> JsonForm<T> of(Class<T> type, Part<?>... parts) {
    if (type.getRecordComponents().length != parts.length) {
      throw new IllegalArgumentException(type + " has not " + parts.length + " components");
    }
    return new JsonForm<>(type, List.of(parts));
  }

  /** A component under {@code name}, told as {@code told} says; what is not there is left out. */
  public static <V> Part<V> part(String name, Function<V, ?> told, Function<JsonNode, V> reading) {
    return new Part<>(
        value -> Json.object(name, told.apply(value)), node -> reading.apply(node.member(name)));
  }

  /** A component under {@code name}, told as it is. */
  public static <V> Part<V> member(String name, Function<JsonNode, V> reading) {
    return part(name, value -> value, reading);
  }

  public static <E extends Enum<E> & Worded> Part<E> word(String name, Class<E> words) {
    return part(name, Worded::word, node -> node.word(words));
  }

  /** A date and time, UTC. */
  public static Part<Instant> instant(String name) {
    return part(name, Instant::toString, JsonNode::instant);
  }

  /** What may be missing. */
  public static <V> Part<Optional<V>> optional(
      String name, Function<V, ?> told, Function<JsonNode, V> reading) {
    return part(name, value -> value.map(told), node -> node.optional(reading));
  }

  /** An object of its own. */
  public Part<T> in(String name) {
    return part(name, this::write, this::read);
  }

  /** An object of its own, if it is there. */
  public Part<Optional<T>> optionallyIn(String name) {
    return optional(name, this::write, this::read);
  }

  /** A list of such objects. */
  public Part<List<T>> listIn(String name) {
    return part(name, this::writeAll, this::readAll);
  }

  /** Among the members of the whole. */
  public Part<T> amongTheOthers() {
    return new Part<>(this::write, this::read);
  }

  /** A component that is not told; {@code value} is read for it. */
  public static <V> Part<V> untold(V value) {
    return new Part<>(told -> Map.of(), node -> value);
  }

  public Map<String, Object> write(T record) {
    Map<String, Object> object = new LinkedHashMap<>();
    try {
      for (int i = 0; i < parts.size(); i++) {
        Object value = type.getRecordComponents()[i].getAccessor().invoke(record);
        object.putAll(parts.get(i).written(value));
      }
      return object;
    } catch (ReflectiveOperationException e) {
      throw new LinkageError(type + " cannot be told", e);
    }
  }

  public T read(JsonNode node) {
    Object[] values = parts.stream().map(part -> part.reading().apply(node)).toArray();
    try {
      return constructor().newInstance(values);
    } catch (ReflectiveOperationException e) {
      if (e.getCause() instanceof RuntimeException refused) {
        throw refused;
      }
      throw new LinkageError(type + " cannot be made", e);
    }
  }

  private Constructor<T> constructor() throws NoSuchMethodException {
    Class<?>[] types =
        Arrays.stream(type.getRecordComponents())
            .map(RecordComponent::getType)
            .toArray(Class<?>[]::new);
    return type.getDeclaredConstructor(types);
  }

  public List<Map<String, Object>> writeAll(List<T> records) {
    return records.stream().map(this::write).toList();
  }

  public List<T> readAll(JsonNode list) {
    return list.elements().stream().map(this::read).toList();
  }
}
