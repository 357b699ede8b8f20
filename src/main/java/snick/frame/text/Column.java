package snick.frame.text;

import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import snick.quantity.Force;

/** What a column of a text line holds. */
public enum Column {
  /** Time since some moment, s. */
  TIME_S("time_s", 1_000_000),
  /** Time since some moment, ms. */
  TIME_MS("time_ms", 1000),
  /** Time since some moment, µs. */
  TIME_US("time_us", 1),
  /** Date and time of day by ISO 8601, or time of day alone. */
  TIME("time", 0),
  /** The reading in counts, or in a unit that is not known; two's complement if whole. */
  COUNTS("counts", 0),
  /** A reading of 24 bits in offset binary: 8388608 stands for 0. */
  OFFSET24("offset24", 0),
  /** A reading of 24 bits in two's complement whose sign was not extended. */
  UNSIGNED24("unsigned24", 0),
  /** A reading of 24 bits in two's complement, in hexadecimal digits. */
  HEX24("hex24", 0),
  /** The reading in gram-force, as a sketch derived it. */
  GRAMS("g", 0),
  /** The reading in kilogram-force. */
  KILOGRAMS("kg", 0),
  /** The reading in newtons. */
  NEWTONS("N", 0),
  /** The reading in millinewtons. */
  MILLINEWTONS("mN", 0),
  /** Something else. */
  OTHER("-", 0);

  private final String word;
  private final long microsPerUnit;

  Column(String word, long microsPerUnit) {
    this.word = word;
    this.microsPerUnit = microsPerUnit;
  }

  /** The word for it. */
  public String word() {
    return word;
  }

  /** The column of that word. */
  public static Optional<Column> ofWord(String word) {
    return Arrays.stream(values()).filter(column -> column.word.equals(word)).findFirst();
  }

  /** All words, for a message. */
  public static String words() {
    return Arrays.stream(values()).map(Column::word).collect(Collectors.joining(", "));
  }

  /** µs in a unit of time; 0 if it counts no time. */
  long microsPerUnit() {
    return microsPerUnit;
  }

  /** Whether it holds time. */
  public boolean isTime() {
    return microsPerUnit > 0 || this == TIME;
  }

  /** Whether it holds the reading. */
  public boolean isReading() {
    return !isTime() && this != OTHER;
  }

  /** Gram-force in a unit of the reading; empty where counts have yet to be calibrated. */
  public OptionalDouble gramForcePerUnit() {
    return switch (this) {
      case GRAMS -> OptionalDouble.of(1);
      case KILOGRAMS -> OptionalDouble.of(1000);
      case NEWTONS -> OptionalDouble.of(1 / Force.NEWTONS_PER_GRAM_FORCE);
      case MILLINEWTONS -> OptionalDouble.of(1e-3 / Force.NEWTONS_PER_GRAM_FORCE);
      default -> OptionalDouble.empty();
    };
  }
}
