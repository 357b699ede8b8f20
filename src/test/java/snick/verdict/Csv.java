package snick.verdict;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Reference data beside the tests: plain comma-separated rows under one header, no quotes. */
final class Csv {
  private Csv() {}

  /** Rows after the header. */
  static List<String[]> rows(String file) {
    try (InputStream in = Csv.class.getResourceAsStream("/snick/verdict/" + file)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .skip(1)
          .map(line -> line.split(",", -1))
          .toList();
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

  static double[] reversed(double[] values) {
    double[] reversed = new double[values.length];
    Arrays.setAll(reversed, i -> values[values.length - 1 - i]);
    return reversed;
  }
}
