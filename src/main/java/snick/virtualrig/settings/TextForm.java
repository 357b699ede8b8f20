package snick.virtualrig.settings;

/**
 * How a simple sketch prints its readings.
 *
 * @param withMicros {@code micros,reading} instead of {@code reading}
 * @param withChecksum {@code *HH} after each reading
 * @param decimals 0: integer counts; else gf with this many decimals, 1 to 6
 * @param carriageReturn CR LF instead of LF
 */
public record TextForm(
    boolean withMicros, boolean withChecksum, int decimals, boolean carriageReturn) {
  /** Bare counts, LF. */
  public static final TextForm COUNTS = new TextForm(false, false, 0, false);

  /** Time and counts with checksum, CR LF. */
  public static final TextForm CHECKED = new TextForm(true, true, 0, true);

  public TextForm {
    SettingRange.check("decimals", decimals, 0, 6);
  }
}
