package snick.sample;

/**
 * What a stream went through so far. Snapshot, immutable.
 *
 * @param samples samples seen, overrange ones included
 * @param overrange samples at a rail
 * @param lost samples known to be lost
 * @param restarts times that the device began anew
 * @param reopened times that the link was opened again
 * @param formChanges times that gain, rate or decimals changed
 * @param clockWraps times that the device's 32-bit clock wrapped
 * @param timelessSamples samples whose time was rebuilt from the nominal rate
 */
public record StreamFacts(
    long samples,
    long overrange,
    Lost lost,
    long restarts,
    long reopened,
    long formChanges,
    long clockWraps,
    long timelessSamples) {

  /** Nothing seen yet. */
  public static final StreamFacts NONE = new StreamFacts(0, 0, new Lost(0, 0), 0, 0, 0, 0, 0);

  /**
   * Samples known to be lost.
   *
   * @param samples how many
   * @param times in how many places
   */
  public record Lost(long samples, long times) {}

  /** Counts while the stream runs; one thread. */
  static final class Counter {
    private long samples;
    private long overrange;
    private long lostSamples;
    private long lossEvents;
    private long restarts;
    private long reopened;
    private long formChanges;
    private long timelessSamples;

    void sample() {
      samples++;
    }

    void overrange() {
      overrange++;
    }

    void lost(long count) {
      lostSamples += count;
      lossEvents++;
    }

    void restart() {
      restarts++;
    }

    void reopened() {
      reopened++;
    }

    void broken(Gap.Cause cause) {
      if (cause == Gap.Cause.FORM_CHANGED) {
        formChanges++;
      }
    }

    void timeless() {
      timelessSamples++;
    }

    StreamFacts snapshot(long clockWraps) {
      return new StreamFacts(
          samples,
          overrange,
          new Lost(lostSamples, lossEvents),
          restarts,
          reopened,
          formChanges,
          clockWraps,
          timelessSamples);
    }
  }
}
