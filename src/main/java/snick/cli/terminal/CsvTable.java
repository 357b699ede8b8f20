package snick.cli.terminal;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.regex.Pattern;

/** Rows of a CSV file with a header (RFC 4180). Every complaint names file, line and value. */
public final class CsvTable {
  private static final int BYTE_ORDER_MARK = 0xFEFF;
  private static final int MOST_ROWS = 100_000;
  private static final int LONGEST_SHOWN = 40;
  private static final Pattern NUMBER =
      Pattern.compile("[+-]?(\\d+\\.?\\d*|\\.\\d+)([eE][+-]?\\d{1,3})?");

  private final String name;
  private final List<NamedCsvRecord> records;

  private CsvTable(String name, List<NamedCsvRecord> records) {
    this.name = name;
    this.records = records;
  }

  /**
   * Reads {@code file}; {@code -} is standard input.
   *
   * @param needed columns that must be there
   * @throws Refusal if it cannot be read, is no CSV, is empty or lacks a column
   */
  public static CsvTable read(String file, List<String> needed) {
    String name = file.equals("-") ? "standard input" : file;
    try (Reader text = open(file);
        CsvReader<NamedCsvRecord> csv =
            CsvReader.builder()
                .allowExtraFields(true)
                .allowMissingFields(true)
                .ofNamedCsvRecord(text)) {
      CsvTable table = new CsvTable(name, all(csv, name));
      table.requireColumns(needed);
      table.rows().forEach(Row::requireWhole);
      return table;
    } catch (NoSuchFileException e) {
      throw Refusal.badInput(name + " is not there; check the path");
    } catch (CsvParseException e) {
      throw Refusal.badInput(
          name + " is no CSV with a header: " + cause(e) + "; header: " + String.join(",", needed));
    } catch (UncheckedIOException e) {
      throw unreadable(name, e.getCause());
    } catch (IOException e) {
      throw unreadable(name, e);
    }
  }

  private static Refusal unreadable(String name, IOException e) {
    return Refusal.badInput(
        e instanceof CharacterCodingException
            ? name + " cannot be read as UTF-8 text: " + e.getMessage() + "; export it as CSV again"
            : name + " cannot be read: " + FileReason.of(e));
  }

  private static List<NamedCsvRecord> all(CsvReader<NamedCsvRecord> csv, String name) {
    List<NamedCsvRecord> records = new ArrayList<>();
    for (NamedCsvRecord next : csv) {
      records.add(next);
      if (records.size() > MOST_ROWS) {
        throw Refusal.badInput(name + " has more than " + MOST_ROWS + " rows; split it");
      }
    }
    return records;
  }

  private static String cause(CsvParseException e) {
    return e.getCause() == null
        ? e.getMessage()
        : e.getMessage() + ": " + e.getCause().getMessage();
  }

  private static Reader open(String file) throws IOException {
    BufferedReader text =
        file.equals("-")
            ? new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8))
            : Files.newBufferedReader(Path.of(file));
    skipByteOrderMark(text);
    return text;
  }

  private static void skipByteOrderMark(BufferedReader text) throws IOException {
    text.mark(1);
    if (text.read() != BYTE_ORDER_MARK) {
      text.reset();
    }
  }

  private void requireColumns(List<String> needed) {
    if (records.isEmpty()) {
      throw Refusal.badInput(
          name + " has no rows below a header; expected: " + String.join(",", needed));
    }
    List<String> header = records.get(0).getHeader();
    for (String column : needed) {
      if (!header.contains(column)) {
        throw Refusal.badInput(
            "%s line 1: no column '%s' among '%s'; needed: %s",
            name, column, shown(String.join(",", header)), String.join(",", needed));
      }
    }
  }

  private static String shown(String text) {
    String line = text.replace('\n', ' ').replace('\r', ' ');
    return line.length() <= LONGEST_SHOWN ? line : line.substring(0, LONGEST_SHOWN) + "…";
  }

  /** The rows, in order. */
  public List<Row> rows() {
    return records.stream().map(Row::new).toList();
  }

  /** File name, for complaints about the whole. */
  public String name() {
    return name;
  }

  /** One row. */
  public final class Row {
    private final NamedCsvRecord fields;

    private Row(NamedCsvRecord fields) {
      this.fields = fields;
    }

    private void requireWhole() {
      int columns = records.get(0).getHeader().size();
      if (fields.getFieldCount() != columns) {
        throw refusal(
            fields.getFieldCount() + " fields under " + columns + " heads",
            "write one field for each; a decimal comma needs to be a point");
      }
    }

    /** Text of a column without the spaces around it; empty if there is no such column. */
    public String text(String column) {
      return fields.findField(column).orElse("").strip();
    }

    /** Number of a column; empty if the field is. */
    public OptionalDouble number(String column) {
      String text = text(column);
      if (text.isEmpty()) {
        return OptionalDouble.empty();
      }
      if (!NUMBER.matcher(text).matches()) {
        throw refusal(
            column + " '" + shown(text) + "' is not a number",
            "write it like 12.5 or 1.25e1, decimal point, no unit");
      }
      return OptionalDouble.of(Double.parseDouble(text));
    }

    /** Number that must be there. */
    public double required(String column) {
      return number(column)
          .orElseThrow(() -> refusal(column + " is empty", "fill it in or take the line out"));
    }

    /** A complaint about this row. */
    public Refusal refusal(String what, String remedy) {
      return Refusal.badInput(
          name + " line " + fields.getStartingLineNumber() + ": " + what + "; " + remedy);
    }
  }
}
