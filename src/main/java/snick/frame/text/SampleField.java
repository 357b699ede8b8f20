package snick.frame.text;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;

/**
 * One field of a line that is looked at.
 *
 * @param kind what it holds
 * @param label what stands before the number or time; all if there is none
 * @param value the number as printed, with a point for a comma; empty for text and times
 * @param unit what stands behind it
 * @param spaced whether it begins with a space
 */
record SampleField(LineFields.Kind kind, String label, String value, String unit, boolean spaced) {
  private static final int MOST_DIGITS = 18;

  static SampleField of(byte[] line, LineFields fields, int field) {
    String label = text(line, fields.from(field), fields.valueFrom(field));
    String value = text(line, fields.valueFrom(field), fields.valueEnd(field));
    String unit = text(line, fields.valueEnd(field), fields.end(field));
    boolean number = fields.kind(field) == LineFields.Kind.NUMBER;
    return new SampleField(
        fields.kind(field),
        label.strip(),
        number ? value.replace(',', '.') : "",
        unit.strip(),
        label.startsWith(" "));
  }

  private static String text(byte[] line, int from, int end) {
    return new String(line, from, end - from, StandardCharsets.UTF_8);
  }

  boolean isNumber() {
    return kind == LineFields.Kind.NUMBER && value.length() <= MOST_DIGITS;
  }

  /** Whether it holds digits that are no number. */
  boolean isMuddled() {
    return kind == LineFields.Kind.TEXT
        ? unit.chars().anyMatch(c -> c >= '0' && c <= '9')
        : kind == LineFields.Kind.NUMBER && value.length() > MOST_DIGITS;
  }

  boolean isWhole() {
    return isNumber() && value.indexOf('.') < 0;
  }

  boolean digitsOnly() {
    return isNumber() && value.chars().allMatch(c -> c >= '0' && c <= '9');
  }

  double number() {
    return Double.parseDouble(value);
  }

  /** Same number of fields, of the same kinds, with the same labels and units. */
  static boolean sameShape(List<SampleField> a, List<SampleField> b) {
    boolean same = a.size() == b.size();
    for (int i = 0; same && i < a.size(); i++) {
      same =
          a.get(i).kind == b.get(i).kind
              && (a.get(i).kind == LineFields.Kind.TEXT
                  || (a.get(i).label.equals(b.get(i).label)
                      && a.get(i).unit.equals(b.get(i).unit)));
    }
    return same;
  }

  /** Label and unit, for what they mean. */
  String words() {
    return label + " " + unit;
  }

  @Override
  public String toString() {
    return String.format(Locale.ROOT, "%s%s%s", label, value, unit);
  }
}
