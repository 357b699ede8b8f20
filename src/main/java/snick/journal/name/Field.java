package snick.journal.name;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/** Checks of single journal fields. Every range check is positive, so that NaN fails it. */
public final class Field {
  /** Longest name or label, in UTF-16 units. */
  static final int NAME_LIMIT = 120;

  /** Longest note or reason, in UTF-16 units. */
  public static final int NOTE_LIMIT = 4000;

  private static final int SHOWN_LIMIT = 40;

  private Field() {}

  /**
   * {@code text} without outer blanks; it must not be blank or long, or hold control characters.
   */
  public static String name(String field, String text) {
    String trimmed = text.strip();
    if (trimmed.isEmpty()) {
      throw new NotAccepted("refused.empty", "field", called(field));
    }
    checkLength(field, trimmed, NAME_LIMIT);
    checkControls(field, trimmed, false);
    return trimmed;
  }

  public static Optional<String> name(String field, Optional<String> text) {
    return text.map(t -> name(field, t));
  }

  /** Free text, may be empty; line feed and tab are the only control characters in it. */
  public static String note(String field, String text) {
    checkLength(field, text, NOTE_LIMIT);
    checkControls(field, text, true);
    return text;
  }

  /** Free text that must say something. */
  public static String reason(String field, String text) {
    if (text.isBlank()) {
      throw new NotAccepted("refused.empty_reason", "field", called(field));
    }
    return note(field, text.strip());
  }

  public static double within(String field, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high)) {
      throw new NotAccepted(
          Phrase.of("refused.outside_unit")
              .with("field", called(field))
              .with("value", value)
              .with("low", low)
              .with("high", high)
              .with("unit", unit));
    }
    return value;
  }

  public static void within(
      String field, OptionalDouble value, double low, double high, String unit) {
    value.ifPresent(v -> within(field, v, low, high, unit));
  }

  public static int within(String field, int value, int low, int high) {
    if (!(value >= low && value <= high)) {
      throw new NotAccepted(
          "refused.outside", "field", called(field), "value", value, "low", low, "high", high);
    }
    return value;
  }

  public static void within(String field, OptionalInt value, int low, int high) {
    value.ifPresent(v -> within(field, v, low, high));
  }

  /** {@code text} cut to a length that is fit for a message. */
  public static String shown(String text) {
    return text.length() <= SHOWN_LIMIT ? text : text.substring(0, SHOWN_LIMIT) + "…";
  }

  /** What a field is called: its words in English are its key in the catalog. */
  public static Phrase called(String field) {
    return Phrase.of("field." + field.replace(' ', '_'));
  }

  private static void checkLength(String field, String text, int limit) {
    if (text.length() > limit) {
      throw new NotAccepted(
          "refused.too_long", "field", called(field), "n", text.length(), "limit", limit);
    }
  }

  private static void checkControls(String field, String text, boolean linesAllowed) {
    for (int i = 0; i < text.length(); i = text.offsetByCodePoints(i, 1)) {
      int point = text.codePointAt(i);
      boolean line = linesAllowed && (point == '\n' || point == '\t');
      if (noText(point) && !line) {
        throw new NotAccepted(
            "refused.control_character", "field", called(field), "n", point, "at", i + 1);
      }
    }
  }

  /** Half a surrogate pair is no character, and cannot be stored as it is. */
  private static boolean noText(int point) {
    return Character.isISOControl(point) || Character.getType(point) == Character.SURROGATE;
  }
}
