package snick.frame.message;

import java.util.Locale;

/** Ranges that the fields of messages have. */
public final class Limits {
  static final long MAX_U8 = 0xFF;
  static final long MAX_U16 = 0xFFFF;
  public static final long MAX_U32 = 0xFFFF_FFFFL;

  private Limits() {}

  /** Refuse a value outside its range. */
  public static void check(String what, long value, long lowest, long highest) {
    if (!(value >= lowest && value <= highest)) {
      throw new IllegalArgumentException(
          String.format(Locale.ROOT, "%s %d is outside %d to %d", what, value, lowest, highest));
    }
  }
}
