package snick.exchange;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.Closeable;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;

/** A table being written: RFC 4180, UTF-8 without byte order mark, one header line. */
final class CsvFile implements Closeable {
  private final CsvWriter writer;

  CsvFile(Table table, OutputStream out) {
    writer =
        CsvWriter.builder()
            .lineDelimiter(LineDelimiter.CRLF)
            .bufferSize(1 << 16)
            .build(out, StandardCharsets.UTF_8);
    row(table.header());
  }

  void row(String... cells) {
    writer.writeRecord(cells);
  }

  @Override
  public void close() throws IOException {
    writer.close();
  }
}
