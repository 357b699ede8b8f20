package snick.verdict;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Reference data beside the tests: plain comma-separated rows under one header, no quotes. */
final class Csv {
  private Csv() {}

  /** Names of the columns. */
  static List<String> header(String file) {
    return List.of(lines(file).get(0).split(",", -1));
  }

  /** Rows after the header. */
  static List<String[]> rows(String file) {
    return lines(file).stream().skip(1).map(line -> line.split(",", -1)).toList();
  }

  private static List<String> lines(String file) {
    try (InputStream in = Csv.class.getResourceAsStream("/snick/verdict/" + file)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().toList();
    } catch (IOException e) {
      throw new IllegalStateException(file, e);
    }
  }

  /** Column {@code column} of all rows. */
  static double[] column(String file, int column) {
    return rows(file).stream().mapToDouble(row -> Double.parseDouble(row[column])).toArray();
  }

  /** Column {@code value} of the rows of each group, groups in order of appearance. */
  static Map<String, double[]> grouped(String file, int group, int value) {
    return rows(file).stream()
        .collect(
            Collectors.groupingBy(
                row -> row[group],
                LinkedHashMap::new,
                Collectors.collectingAndThen(
                    Collectors.toList(),
                    list ->
                        list.stream()
                            .mapToDouble(row -> Double.parseDouble(row[value]))
                            .toArray())));
  }

  /** Rows whose first column is {@code key}: second column to third. */
  static Map<String, Double> quantities(String file, String key) {
    return rows(file).stream()
        .filter(row -> row[0].equals(key))
        .collect(
            Collectors.toMap(
                row -> row[1],
                row -> Double.parseDouble(row[2]),
                (a, b) -> {
                  throw new IllegalStateException("twice: " + a + ", " + b);
                },
                LinkedHashMap::new));
  }
}
