package snick.frame.text;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;

/** What the name of a column, or label and unit of its numbers, say that it holds. */
enum ColumnName {
  MICROSECONDS("us µs μs usec micros microseconds"),
  MILLISECONDS("ms msec millis milliseconds"),
  SECONDS("s sec secs second seconds"),
  COUNTS("raw count counts adc code lsb rawcounts rawvalue adcraw"),
  GRAMS("g gf gram grams"),
  KILOGRAMS("kg kgf kilogram kilograms"),
  MILLINEWTONS("mn"),
  TIME("t time timestamp elapsed uptime clock tick ticks"),
  FORCE("load weight force mass"),
  /** Of no interest, if it is not a number of the reading. */
  OTHER(
      "temp temperature c °c v mv volt volts voltage battery bat vcc humidity rate hz sps index idx i n no nr line row peak max min avg average mean filtered smooth smoothed state flag offset scale"),
  NEWTONS("newton newtons"),
  NONE("");

  private final String words;

  ColumnName(String words) {
    this.words = words;
  }

  /** What {@code text} says; the first meaning in the order above. */
  static ColumnName of(String text) {
    Set<String> asWritten = Arrays.stream(text.split("[^\\p{L}°]+")).collect(Collectors.toSet());
    if (asWritten.contains("N")) {
      return NEWTONS;
    }
    Set<String> lower =
        asWritten.stream().map(word -> word.toLowerCase(Locale.ROOT)).collect(Collectors.toSet());
    return Arrays.stream(values())
        .filter(name -> List.of(name.words.split(" ")).stream().anyMatch(lower::contains))
        .findFirst()
        .orElse(NONE);
  }

  boolean isTime() {
    return this == MICROSECONDS || this == MILLISECONDS || this == SECONDS || this == TIME;
  }
}
