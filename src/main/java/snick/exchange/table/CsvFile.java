package snick.exchange.table;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.ByteArrayOutputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;

/** A table being written: RFC 4180, UTF-8 without byte order mark, one header line. */
public final class CsvFile implements Closeable {
  private final CsvWriter writer;

  public CsvFile(PackageTable<?> table, OutputStream out) {
    this(out, 1 << 16);
    row(table.header());
  }

  private CsvFile(OutputStream out, int bufferChars) {
    writer =
        CsvWriter.builder()
            .lineDelimiter(LineDelimiter.CRLF)
            .bufferSize(bufferChars)
            .build(out, StandardCharsets.UTF_8);
  }

  /** The header line alone. */
  public static void writeHeader(PackageTable<?> table, OutputStream out) throws IOException {
    ByteArrayOutputStream line = new ByteArrayOutputStream();
    new CsvFile(table, line).close();
    line.writeTo(out);
  }

  /** Some rows of a table whose header was written before. */
  public static CsvFile continued(OutputStream out) {
    return new CsvFile(out, 1 << 12);
  }

  public void row(String... cells) {
    writer.writeRecord(cells);
  }

  @Override
  public void close() throws IOException {
    writer.close();
  }
}
