package snick.force.reading;

import java.util.Locale;
import snick.quantity.Worded;

/** Whether a load was reached from a smaller or from a larger one. */
public enum Direction implements Worded {
  UP,
  DOWN;

  /** The direction that {@code word} names. */
  public static Direction named(String word) {
    return switch (word.strip().toLowerCase(Locale.ROOT)) {
      case "up" -> UP;
      case "down" -> DOWN;
      default -> throw new IllegalArgumentException("direction '" + word + "': up or down allowed");
    };
  }
}
