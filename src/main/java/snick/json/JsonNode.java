package snick.json;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.function.Function;
import snick.quantity.Worded;

/**
 * A value in a JSON document, with its place for messages. What is missing or of another type is
 * refused.
 *
 * @param place file and path, for example {@code rig.json: recordings[2].gain}
 * @param value a map, list, text, number or truth; null if absent
 * @param refusal what is thrown with a message
 */
public record JsonNode(
    String place, Object value, Function<String, ? extends RuntimeException> refusal) {
  private static final int MOST_ELEMENTS = 1_000_000;
  private static final int SHOWN = 60;

  /**
   * The document in {@code text}, which was kept as {@code place}; it refuses by {@link
   * IllegalArgumentException}.
   */
  public static JsonNode of(String place, String text) {
    return new JsonNode(place + ": ", Json.read(text), IllegalArgumentException::new);
  }

  private RuntimeException not(String what) {
    String found = value == null ? "nothing" : value.toString();
    String shown = found.length() <= SHOWN ? found : found.substring(0, SHOWN) + "…";
    return refusal.apply(place + " is " + shown + ", not " + what);
  }

  public JsonNode member(String name) {
    if (!(value instanceof Map<?, ?> map)) {
      throw not("an object");
    }
    return new JsonNode(place + (place.endsWith(": ") ? "" : ".") + name, map.get(name), refusal);
  }

  public boolean present() {
    return value != null;
  }

  /** What {@code reading} makes of this, if it is there. */
  public <T> Optional<T> optional(Function<JsonNode, T> reading) {
    return present() ? Optional.of(reading.apply(this)) : Optional.empty();
  }

  /** What {@code reading} makes of each element; see {@link #as}. */
  public <T> List<T> each(Function<JsonNode, T> reading) {
    return elements().stream().map(element -> element.as(reading)).toList();
  }

  /** None if this is not there. */
  public List<JsonNode> elementsIfAny() {
    return present() ? elements() : List.of();
  }

  public List<JsonNode> elements() {
    if (!(value instanceof List<?> list) || list.size() > MOST_ELEMENTS) {
      throw not("a list");
    }
    List<JsonNode> elements = new ArrayList<>(list.size());
    for (int i = 0; i < list.size(); i++) {
      elements.add(new JsonNode(place + "[" + i + "]", list.get(i), refusal));
    }
    return elements;
  }

  public String text() {
    if (value instanceof String text) {
      if (text.codePoints().anyMatch(c -> Character.getType(c) == Character.SURROGATE)) {
        throw not("text: it holds half a character");
      }
      return text;
    }
    throw not("text");
  }

  public Optional<String> optionalText() {
    return optional(JsonNode::text);
  }

  public String textOr(String other) {
    return present() ? text() : other;
  }

  public long whole() {
    if (value instanceof Integer || value instanceof Long) {
      return ((Number) value).longValue();
    }
    throw not("a whole number");
  }

  public int integer() {
    long whole = whole();
    if (whole < Integer.MIN_VALUE || whole > Integer.MAX_VALUE) {
      throw not("a whole number of at most 32 bits");
    }
    return (int) whole;
  }

  public OptionalInt optionalInteger() {
    return present() ? OptionalInt.of(integer()) : OptionalInt.empty();
  }

  public boolean truth() {
    if (value instanceof Boolean truth) {
      return truth;
    }
    throw not("true or false");
  }

  public double real() {
    if (value instanceof Number number && Double.isFinite(number.doubleValue())) {
      return number.doubleValue();
    }
    throw not("a finite number");
  }

  public OptionalDouble optionalReal() {
    return present() ? OptionalDouble.of(real()) : OptionalDouble.empty();
  }

  /** A number that may be infinite, then written as the text INF. */
  public double realOrInfinite() {
    return "INF".equals(value) ? Double.POSITIVE_INFINITY : real();
  }

  /** Text of at most {@code most} characters, none of them a control character. */
  public String plainText(int most) {
    String text = text();
    if (text.length() > most || text.chars().anyMatch(Character::isISOControl)) {
      throw refusal.apply(
          place
              + " has "
              + text.length()
              + " characters or a control character: at most "
              + most
              + " and none are allowed");
    }
    return text;
  }

  /** The constant of {@code type} that is written as this word. */
  public <E extends Enum<E> & Worded> E word(Class<E> type) {
    return Worded.named(type, text()).orElseThrow(() -> not("a word that is known here"));
  }

  public Instant instant() {
    return Times.parse(text()).orElseThrow(() -> not("a UTC time from 1700 to 2250"));
  }

  public Optional<Instant> optionalInstant() {
    return optional(JsonNode::instant);
  }

  /**
   * What {@code reading} makes of this; a value that its type refuses is refused with its place.
   */
  public <T> T as(Function<JsonNode, T> reading) {
    try {
      return reading.apply(this);
    } catch (IllegalArgumentException | ArithmeticException e) {
      RuntimeException refused = refusal.apply(place + ": " + e.getMessage());
      refused.addSuppressed(e);
      throw refused;
    }
  }
}
