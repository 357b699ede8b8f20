package snick.exchange.table;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * One column of a table: a field of Table Schema, with its unit as a further property.
 *
 * @param name name in the header, ends with the unit where there is one
 * @param type type of Table Schema
 * @param unit unit, empty text if it has none
 * @param meaning what it is, for people
 * @param required whether every row has it
 * @param words the only values; empty if any
 */
public record Column(
    String name, Type type, String unit, String meaning, boolean required, List<String> words) {
  /** Types of Table Schema that are used. */
  public enum Type {
    INTEGER,
    NUMBER,
    BOOLEAN,
    DATETIME,
    STRING;

    String word() {
      return name().toLowerCase(java.util.Locale.ROOT);
    }
  }

  static Column integer(String name, String meaning) {
    return new Column(name, Type.INTEGER, "", meaning, true, List.of());
  }

  static Column number(String name, String unit, String meaning) {
    return new Column(name, Type.NUMBER, unit, meaning, true, List.of());
  }

  static Column truth(String name, String meaning) {
    return new Column(name, Type.BOOLEAN, "", meaning, true, List.of());
  }

  static Column time(String name, String meaning) {
    return new Column(name, Type.DATETIME, "", meaning, true, List.of());
  }

  static Column word(String name, String meaning, List<String> words) {
    return new Column(name, Type.STRING, "", meaning, true, words);
  }

  /** The same, in some rows only. */
  Column inSomeRows() {
    return new Column(name, type, unit, meaning, false, words);
  }

  /**
   * The field of Table Schema. Times have fractions of a second, which the default format of
   * version 1 does not allow: format any is read by both versions.
   */
  Map<String, Object> field() {
    Map<String, Object> field = new LinkedHashMap<>();
    field.put("name", name);
    field.put("type", type.word());
    if (type == Type.DATETIME) {
      field.put("format", "any");
    }
    field.put("description", meaning);
    unitWord().ifPresent(u -> field.put("unit", u));
    Map<String, Object> constraints = new LinkedHashMap<>();
    if (required) {
      constraints.put("required", true);
    }
    if (!words.isEmpty()) {
      constraints.put("enum", words);
    }
    if (!constraints.isEmpty()) {
      field.put("constraints", constraints);
    }
    return field;
  }

  /** Whether this is a time in s, exact to the nanosecond. */
  boolean isSeconds() {
    return type == Type.NUMBER && unit.equals("s");
  }

  private Optional<String> unitWord() {
    return unit.isEmpty() ? Optional.empty() : Optional.of(unit);
  }
}
