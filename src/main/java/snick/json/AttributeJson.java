package snick.json;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import snick.quantity.Attribute;
import snick.quantity.Force;

/**
 * Attributes as members of JSON objects, by their names; what is not there is left out. A force in
 * N is told in gf, too, under a name that ends so, to the millionth. Pure.
 */
public final class AttributeJson {
  private static final double STEPS_PER_GRAM_FORCE = 1e6;

  private AttributeJson() {}

  /** An object with a member for each of {@code attributes} that {@code of} has. */
  public static <T> Map<String, Object> of(List<Attribute<T>> attributes, T of) {
    Map<String, Object> object = new LinkedHashMap<>();
    attributes.forEach(
        a -> a.told(of).filter(AttributeJson::told).ifPresent(value -> put(object, a, value)));
    return object;
  }

  /** JSON has no infinity; degrees of freedom that are not told are infinite. */
  private static boolean told(Object value) {
    return !(value instanceof Double d && d.isInfinite());
  }

  private static void put(Map<String, Object> object, Attribute<?> attribute, Object value) {
    object.put(attribute.name(), value);
    gramForceName(attribute).ifPresent(name -> object.put(name, millionths((Double) value)));
  }

  private static Optional<String> gramForceName(Attribute<?> attribute) {
    return attribute.unit().equals("N")
        ? Optional.of(attribute.name().replaceFirst("_n$", "_gf"))
        : Optional.empty();
  }

  private static double millionths(double newtons) {
    return Math.rint(newtons / Force.NEWTONS_PER_GRAM_FORCE * STEPS_PER_GRAM_FORCE)
        / STEPS_PER_GRAM_FORCE;
  }

  /** The members that {@link #of} gives, as properties of a JSON Schema (2020-12). */
  public static Map<String, Object> properties(List<? extends Attribute<?>> attributes) {
    Map<String, Object> properties = new LinkedHashMap<>();
    for (Attribute<?> a : attributes) {
      properties.put(a.name(), property(a, a.unit()));
      gramForceName(a).ifPresent(name -> properties.put(name, property(a, "gf")));
    }
    return properties;
  }

  private static Map<String, Object> property(Attribute<?> attribute, String unit) {
    Map<String, Object> property = new LinkedHashMap<>();
    switch (attribute.type()) {
      case WHOLE, LONG -> property.put("type", "integer");
      case REAL, SECONDS -> property.put("type", "number");
      case TRUTH -> property.put("type", "boolean");
      case TIME -> property.putAll(Map.of("type", "string", "format", "date-time"));
      case TEXT -> property.put("type", "string");
      case WORDS -> property.putAll(Map.of("type", "array", "items", Map.of("type", "string")));
    }
    if (!attribute.words().isEmpty()) {
      property.put("enum", attribute.words());
    }
    property.put("description", attribute.meaning() + (unit.isEmpty() ? "" : ", " + unit));
    return property;
  }
}
