package snick.cut.estimate;

/**
 * One loading and its fall, ready for the estimate: readings above zero and positive in loading
 * direction, in counts; times in s since any origin, rising. The arrays are not copied; the
 * estimate may take further readings for not usable, else nothing is changed.
 *
 * @param timeSeconds time of each reading, s
 * @param counts readings, counts above zero
 * @param usable whether a reading may be used: no spike, no rail
 * @param periodSeconds sampling period, s
 * @param noiseCounts standard deviation of one reading at rest, counts
 * @param onset index of the last reading before the loading
 * @param fall how it ended
 * @param end one past the last reading before the next loading
 */
@SuppressWarnings("ArrayRecordComponent") // made and read at once, never compared
public record Loading(
    double[] timeSeconds,
    double[] counts,
    boolean[] usable,
    double periodSeconds,
    double noiseCounts,
    int onset,
    Ending fall,
    int end) {
  /**
   * The fall as far as known without the estimate.
   *
   * @param top index of the last reading before it at 90 % of the height or more
   * @param bottom index of the first reading at 10 % or less
   * @param seconds time from 90 % to 10 %, s
   * @param fixtureLagSeconds by how much the fixture follows a steady rise late, s, as its ringing
   *     after earlier falls tells; infinite while that is not known
   * @param levelAfterCounts level that it fell to, counts above zero
   */
  public record Ending(
      int top, int bottom, double seconds, double fixtureLagSeconds, double levelAfterCounts) {}
}
