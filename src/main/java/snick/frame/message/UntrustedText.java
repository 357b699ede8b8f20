package snick.frame.message;

import java.nio.charset.StandardCharsets;

/** Text that a device sent: UTF-8, what is not text replaced by U+FFFD. */
public final class UntrustedText {
  private static final int REPLACEMENT = 0xFFFD;

  private UntrustedText() {}

  public static String of(byte[] bytes, int offset, int length) {
    String text = new String(bytes, offset, length, StandardCharsets.UTF_8);
    StringBuilder clean = new StringBuilder(text.length());
    text.codePoints().map(UntrustedText::shown).forEach(clean::appendCodePoint);
    return clean.toString();
  }

  private static int shown(int codePoint) {
    return switch (Character.getType(codePoint)) {
      case Character.CONTROL,
          Character.FORMAT,
          Character.LINE_SEPARATOR,
          Character.PARAGRAPH_SEPARATOR,
          Character.PRIVATE_USE,
          Character.SURROGATE,
          Character.UNASSIGNED ->
          REPLACEMENT;
      default -> codePoint;
    };
  }
}
