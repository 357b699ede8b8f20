package snick.quantity;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;

/**
 * One thing that is told of something, declared once: the store, every file and every page name it,
 * check it and explain it by this.
 *
 * @param <T> of what it is told
 * @param name lower-case words, the unit last where there is one, as in {@code fall_s}
 * @param type what a value is
 * @param unit unit, empty text if it has none
 * @param meaning what it is, for people
 * @param required whether it is always there
 * @param words the only values; empty if any
 * @param getter the value, of the class that the type names, or an optional of it
 */
public record Attribute<T>(
    String name,
    Type type,
    String unit,
    String meaning,
    boolean required,
    List<String> words,
    Function<T, ?> getter) {
  /** What a value is. */
  public enum Type {
    /** {@link Integer}. */
    WHOLE,
    /** {@link Long}. */
    LONG,
    /** {@link Double}, no NaN. */
    REAL,
    /** {@link Long} in ns; told in s to people and in files, exactly. */
    SECONDS,
    /** {@link Boolean}. */
    TRUTH,
    /** {@link java.time.Instant}. */
    TIME,
    /** {@link String}. */
    TEXT,
    /** {@link List} of words without a space in them. */
    WORDS
  }

  private static <T> Attribute<T> always(
      String name, Type type, String unit, String meaning, Function<T, ?> value) {
    return new Attribute<>(
        name,
        type,
        unit,
        meaning,
        true,
        List.of(),
        t -> Objects.requireNonNull(value.apply(t), name));
  }

  public static <T> Attribute<T> whole(String name, String meaning, Function<T, Integer> value) {
    return always(name, Type.WHOLE, "", meaning, value);
  }

  /** A whole number that may need 64 bits. */
  public static <T> Attribute<T> large(String name, String meaning, Function<T, Long> value) {
    return always(name, Type.LONG, "", meaning, value);
  }

  /** A number that is always there, if it is no NaN. */
  public static <T> Attribute<T> real(
      String name, String unit, String meaning, Function<T, Double> value) {
    return always(name, Type.REAL, unit, meaning, value);
  }

  /** A time on a device's clock, or how long something takes. */
  public static <T> Attribute<T> seconds(String name, String meaning, Function<T, Long> nanos) {
    return always(name, Type.SECONDS, "s", meaning, nanos);
  }

  public static <T> Attribute<T> truth(String name, String meaning, Function<T, Boolean> value) {
    return always(name, Type.TRUTH, "", meaning, value);
  }

  /** A time of day; {@code value} gives a {@link java.time.Instant}. */
  public static <T> Attribute<T> time(String name, String meaning, Function<T, ?> value) {
    return always(name, Type.TIME, "", meaning, value);
  }

  public static <T> Attribute<T> text(String name, String meaning, Function<T, String> value) {
    return always(name, Type.TEXT, "", meaning, value);
  }

  /** Words, none if empty. */
  public static <T> Attribute<T> words(
      String name, String meaning, Function<T, List<String>> value) {
    return some(name, Type.WORDS, "", meaning, value);
  }

  /** What is there at times only. */
  public static <T> Attribute<T> some(
      String name, Type type, String unit, String meaning, Function<T, ?> value) {
    return new Attribute<>(name, type, unit, meaning, false, List.of(), value);
  }

  /** The same, which may be a NaN or not there. */
  public Attribute<T> atTimes() {
    return new Attribute<>(name, type, unit, meaning, false, words, getter);
  }

  /** The same, whose value is one of {@code values}. */
  public Attribute<T> among(List<String> values) {
    return new Attribute<>(name, type, unit, meaning, required, values, getter);
  }

  /** The same under another name. */
  public Attribute<T> named(String other) {
    return new Attribute<>(other, type, unit, meaning, required, words, getter);
  }

  /** The same, told of what has a {@code part} of which this is told. */
  public <W> Attribute<W> of(Function<W, T> part) {
    return new Attribute<>(
        name, type, unit, meaning, required, words, whole -> getter.apply(part.apply(whole)));
  }

  /** The same, told of what may have such a part. */
  public <W> Attribute<W> ofSome(Function<W, Optional<T>> part) {
    return new Attribute<>(
        name, type, unit, meaning, false, words, whole -> part.apply(whole).map(getter));
  }

  /** The value; empty if it is not there. */
  public Optional<?> value(T of) {
    return Given.of(getter.apply(of)).filter(value -> !(value instanceof Double d && d.isNaN()));
  }

  /** The value as it is told: time on a device's clock in s, a time of day in words. */
  public Optional<Object> told(T of) {
    return value(of)
        .map(
            value ->
                switch (type) {
                  case SECONDS -> (Long) value / 1e9;
                  case TIME -> value.toString();
                  default -> value;
                });
  }

  /** The values of {@code all} by name; what is not there is left out. */
  public static <T> Map<String, Object> values(List<Attribute<T>> all, T of) {
    Map<String, Object> values = new LinkedHashMap<>();
    all.forEach(a -> a.value(of).ifPresent(value -> values.put(a.name(), value)));
    return values;
  }
}
