package snick.exchange.table;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import snick.json.Json;
import snick.quantity.Attribute;

/** Types of Table Schema, as which attributes are written into cells. */
enum CellType {
  INTEGER,
  NUMBER,
  BOOLEAN,
  DATETIME,
  STRING;

  static CellType of(Attribute<?> attribute) {
    return switch (attribute.type()) {
      case WHOLE, LONG -> INTEGER;
      case REAL, SECONDS -> NUMBER;
      case TRUTH -> BOOLEAN;
      case TIME -> DATETIME;
      case TEXT, WORDS -> STRING;
    };
  }

  String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** A value as text; a {@link Long} that is a number is a time in ns. */
  String text(Object value) {
    if (this == NUMBER) {
      return value instanceof Long nanos ? Decimals.seconds(nanos) : Decimals.real((Double) value);
    }
    return value instanceof List<?> words
        ? words.stream().map(String::valueOf).collect(Collectors.joining(" "))
        : value.toString();
  }

  /**
   * A column as field of Table Schema, with its unit as a further property. Times have fractions of
   * a second, which the default format of version 1 does not allow: format any is read by both
   * versions.
   */
  static Map<String, Object> field(Attribute<?> column) {
    Map<String, Object> constraints =
        Json.object(
            "required", Json.when(column.required(), true),
            "enum", Json.when(!column.words().isEmpty(), column.words()));
    return Json.object(
        "name", column.name(),
        "type", of(column).word(),
        "format", Json.when(of(column) == DATETIME, "any"),
        "description", column.meaning(),
        "unit", Json.when(!column.unit().isEmpty(), column.unit()),
        "constraints", Json.when(!constraints.isEmpty(), constraints));
  }
}
