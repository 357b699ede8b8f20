package snick.json;

import java.time.DateTimeException;
import java.time.Instant;
import java.util.Optional;

/** UTC times as text. */
public final class Times {
  private static final Instant FIRST = Instant.parse("1700-01-01T00:00:00Z");
  private static final Instant LAST = Instant.parse("2250-01-01T00:00:00Z");

  private Times() {}

  /** The time that {@code text} gives; empty if it is none, or none that a store can keep. */
  public static Optional<Instant> parse(String text) {
    try {
      Instant time = Instant.parse(text);
      return time.isBefore(FIRST) || time.isAfter(LAST) ? Optional.empty() : Optional.of(time);
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }
}
