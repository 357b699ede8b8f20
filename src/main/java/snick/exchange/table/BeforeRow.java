package snick.exchange.table;

import snick.cut.rest.Before;

/** A row of {@code before.csv}. */
public final class BeforeRow {
  private BeforeRow() {}

  /** The cells of a cut in the order of the columns. */
  public static String[] cells(int cut, Before before) {
    Before.Zero zero = before.zero();
    return new String[] {
      Integer.toString(cut),
      Integer.toString(before.began()),
      Integer.toString(before.polarity()),
      Integer.toString(before.usualPolarity()),
      Decimals.real(before.levelCounts()),
      Decimals.real(before.fromCounts()),
      Decimals.real(before.noiseCounts()),
      Decimals.real(before.bandCounts()),
      Boolean.toString(before.sure()),
      Boolean.toString(before.settled()),
      Decimals.real(before.periodNanos()),
      Decimals.real(zero.counts()),
      Decimals.real(zero.varianceCounts2()),
      Decimals.real(zero.driftCountsPerSecond()),
      Decimals.real(zero.driftVariance()),
      Decimals.real(zero.covariance()),
      Decimals.seconds(zero.atNanos())
    };
  }

  /**
   * What the current row says.
   *
   * @throws IllegalArgumentException if that cannot be
   */
  public static Before read(CsvRows rows) {
    return new Before(
        rows.integer(1),
        rows.integer(2),
        rows.integer(3),
        real(rows, 4),
        real(rows, 5),
        real(rows, 6),
        real(rows, 7),
        rows.text(8).equals("true"),
        rows.text(9).equals("true"),
        real(rows, 10),
        new Before.Zero(
            real(rows, 11),
            real(rows, 12),
            real(rows, 13),
            real(rows, 14),
            real(rows, 15),
            rows.nanos(16)));
  }

  private static double real(CsvRows rows, int column) {
    return rows.real(column).orElseThrow();
  }
}
