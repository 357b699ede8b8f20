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
 * @param top index of the last reading before the fall at 90 % of the height or more
 * @param bottom index of the first reading at 10 % or less
 * @param fallSeconds time of the fall from 90 % to 10 %, s
 * @param fixtureLagSeconds by how much the fixture follows a steady rise late, s, as its ringing
 *     after earlier falls tells; infinite while that is not known
 * @param levelAfterCounts level that it fell to as far as known, counts above zero
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
    int top,
    int bottom,
    double fallSeconds,
    double fixtureLagSeconds,
    double levelAfterCounts,
    int end) {}
