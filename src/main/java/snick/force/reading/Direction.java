package snick.force.reading;

import java.util.Locale;

/** Whether a load was reached from a smaller or from a larger one. */
public enum Direction {
  UP,
  DOWN;

  /** The word used in JSON and CSV: {@code up} or {@code down}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The direction that {@code word} names. */
  public static Direction named(String word) {
    return switch (word.strip().toLowerCase(Locale.ROOT)) {
      case "up" -> UP;
      case "down" -> DOWN;
      default -> throw new IllegalArgumentException("direction '" + word + "': up or down allowed");
    };
  }
}
