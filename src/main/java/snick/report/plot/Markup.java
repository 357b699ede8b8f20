package snick.report.plot;

/** Text made safe to stand in markup. */
public final class Markup {
  private Markup() {}

  /**
   * {@code text} for element content or a quoted attribute of XML or HTML; characters that XML does
   * not allow and those that turn the direction of writing become U+FFFD.
   */
  public static String escaped(String text) {
    StringBuilder safe = new StringBuilder(text.length());
    text.codePoints().forEach(c -> append(safe, c));
    return safe.toString();
  }

  private static void append(StringBuilder safe, int c) {
    switch (c) {
      case '&' -> safe.append("&amp;");
      case '<' -> safe.append("&lt;");
      case '>' -> safe.append("&gt;");
      case '"' -> safe.append("&quot;");
      case '\'' -> safe.append("&#39;");
      default -> safe.appendCodePoint(allowed(c) ? c : 0xFFFD);
    }
  }

  public static boolean allowed(int c) {
    boolean blank = c == '\t' || c == '\n';
    boolean control = Character.isISOControl(c) && !blank;
    boolean turns = (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
    boolean surrogate = c >= 0xD800 && c <= 0xDFFF;
    return !control && !turns && !surrogate && c != 0xFFFE && c != 0xFFFF;
  }
}
