package snick.force;

import static java.nio.charset.StandardCharsets.UTF_8;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Objects;

/** Reference figures from a CSV file beside the tests. */
public final class Table {
  private Table() {}

  public static List<NamedCsvRecord> read(String name) {
    try (CsvReader<NamedCsvRecord> reader =
        CsvReader.builder()
            .ofNamedCsvRecord(
                new InputStreamReader(
                    Objects.requireNonNull(Table.class.getResourceAsStream(name), name), UTF_8))) {
      return reader.stream().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public static double number(NamedCsvRecord row, String column) {
    return Double.parseDouble(row.getField(column).strip());
  }

  public static double[] column(List<NamedCsvRecord> rows, String column) {
    return rows.stream().mapToDouble(r -> number(r, column)).toArray();
  }
}
