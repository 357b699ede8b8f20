package snick.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.quantity.Given;

/** JSON (RFC 8259): written with the same bytes on every system, read within bounds. */
public final class Json {
  private static final int DEEPEST = 24;
  private static final int LONGEST_TEXT = 1 << 20;
  private static final int LONGEST_NUMBER = 60;
  private static final int LONGEST_NAME = 200;

  /** A name takes some 150 bytes of memory once it is read. */
  private static final long MOST_TOKENS = 2_000_000;

  private static final JsonFactory FACTORY =
      JsonFactory.builder()
          .enable(StreamWriteFeature.USE_FAST_DOUBLE_WRITER)
          .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
          .streamReadConstraints(
              StreamReadConstraints.builder()
                  .maxNestingDepth(DEEPEST)
                  .maxStringLength(LONGEST_TEXT)
                  .maxNumberLength(LONGEST_NUMBER)
                  .maxNameLength(LONGEST_NAME)
                  .maxTokenCount(MOST_TOKENS)
                  .build())
          .build();

  private static final JSON MAPPER = JSON.builder(FACTORY).disable(JSON.Feature.READ_ONLY).build();

  private static final JSON WHOLE = MAPPER.with(JSON.Feature.WRITE_NULL_PROPERTIES);

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
    if (value == null) {
      object.put(name, null);
    }
    Given.of(value).ifPresent(given -> object.put(name, given));
  }

  /** {@code object}, from which these members are taken away. */
  public static Map<String, Object> without(Map<String, Object> object, String... members) {
    object.keySet().removeAll(List.of(members));
    return object;
  }

  /** A member that is left out unless it is finite: JSON has no infinity and no NaN. */
  public static OptionalDouble finite(double value) {
    return Double.isFinite(value) ? OptionalDouble.of(value) : OptionalDouble.empty();
  }

  /** A member that is left out unless {@code there}. */
  public static <T> Optional<T> when(boolean there, T value) {
    return there ? Optional.of(value) : Optional.empty();
  }

  /** {@code value} on one line; members that are null are left out. */
  public static String text(Object value) {
    return text(MAPPER, value);
  }

  /** {@code value} on one line, every member, also those that are null. */
  public static String whole(Object value) {
    return text(WHOLE, value);
  }

  private static String text(JSON json, Object value) {
    try {
      return json.asString(value);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Writes {@code value} indented, with a line feed at its end; leaves {@code out} open. */
  public static void write(Object value, OutputStream out) throws IOException {
    JsonGenerator generator = FACTORY.createGenerator(out);
    generator.disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
    generator.setPrettyPrinter(
        new DefaultPrettyPrinter()
            .withObjectIndenter(new DefaultIndenter("  ", "\n"))
            .withArrayIndenter(new DefaultIndenter("  ", "\n")));
    WHOLE.write(value, generator);
    generator.flush();
    out.write('\n');
  }

  /**
   * Maps, lists, texts, numbers and truths of a whole document.
   *
   * @throws IllegalArgumentException if it is no JSON, or beyond the bounds
   */
  public static Object read(InputStream in) throws IOException {
    try {
      return MAPPER.anyFrom(in);
    } catch (JsonProcessingException e) {
      String line = e.getLocation() == null ? "" : "line " + e.getLocation().getLineNr() + ", ";
      throw new IllegalArgumentException(line + e.getOriginalMessage(), e);
    }
  }

  /** As {@link #read(InputStream)}, of text. */
  public static Object read(String text) {
    try {
      return MAPPER.anyFrom(text);
    } catch (IOException e) {
      throw new IllegalArgumentException("no JSON: " + e.getMessage(), e);
    }
  }

  /**
   * The object in {@code body}.
   *
   * @throws IllegalArgumentException if it is not one JSON object
   */
  public static Map<String, Object> object(byte[] body) {
    try {
      return Optional.ofNullable(MAPPER.mapFrom(body))
          .orElseThrow(() -> new IllegalArgumentException("no object"));
    } catch (IOException e) {
      throw new IllegalArgumentException("no JSON object: " + e.getMessage(), e);
    }
  }
}
