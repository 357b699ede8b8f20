package snick.cli.terminal;

/** Text from devices, files and people, made harmless for a terminal. */
public final class PlainText {
  private PlainText() {}

  /**
   * {@code text} with every control, format and bidirectional character (C0, C1, DEL, Unicode Cc,
   * Cf, Zl, Zp) but line feed and tab replaced by its code, as in {@code \u001b}: by that of each
   * half if it has two, so that JSON stays the JSON it was.
   */
  public static String inert(String text) {
    StringBuilder inert = new StringBuilder(text.length());
    text.codePoints().forEach(point -> appendInert(inert, point));
    return inert.toString();
  }

  private static void appendInert(StringBuilder inert, int point) {
    if (point == '\n' || point == '\t' || !dangerous(Character.getType(point))) {
      inert.appendCodePoint(point);
    } else {
      for (char unit : Character.toChars(point)) {
        inert.append(String.format("\\u%04x", (int) unit));
      }
    }
  }

  private static boolean dangerous(int category) {
    return category == Character.CONTROL
        || category == Character.FORMAT
        || category == Character.SURROGATE
        || category == Character.LINE_SEPARATOR
        || category == Character.PARAGRAPH_SEPARATOR;
  }
}
