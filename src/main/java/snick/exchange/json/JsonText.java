package snick.exchange.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;

/** JSON of a package: written with the same bytes on every system, read within bounds. */
public final class JsonText {
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

  private static final JSON MAPPER =
      JSON.builder(FACTORY)
          .disable(JSON.Feature.READ_ONLY)
          .enable(JSON.Feature.WRITE_NULL_PROPERTIES)
          .build();

  private JsonText() {}

  /** Writes {@code value} indented, with a line feed at its end; leaves {@code out} open. */
  public static void write(Object value, OutputStream out) throws IOException {
    JsonGenerator generator = FACTORY.createGenerator(out);
    generator.disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
    generator.setPrettyPrinter(
        new DefaultPrettyPrinter()
            .withObjectIndenter(new DefaultIndenter("  ", "\n"))
            .withArrayIndenter(new DefaultIndenter("  ", "\n")));
    MAPPER.write(value, generator);
    generator.flush();
    out.write('\n');
  }

  /** {@code value} on one line. */
  public static String line(Object value) throws IOException {
    return MAPPER.asString(value);
  }

  /** Maps, lists, texts, numbers and truths of a whole document. */
  public static Object read(InputStream in) throws IOException {
    return MAPPER.anyFrom(in);
  }

  /** As {@link #read}, of text. */
  public static Object read(String text) throws IOException {
    return MAPPER.anyFrom(text);
  }
}
