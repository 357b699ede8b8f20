package snick.sample;

/**
 * Takes the samples of one stream, in order. Called from one thread; an implementation must not
 * allocate per sample.
 *
 * <p>Time is the device's clock, unwrapped, in ns, 0 at the stream's first sample, never
 * decreasing.
 */
public interface SampleSink {
  /**
   * One conversion result within range.
   *
   * @param deviceNanos device time, ns
   * @param counts reading, in counts (for decimal text: in units of the stream's last digit)
   */
  void sample(long deviceNanos, int counts);

  /**
   * The first {@code size} of several conversion results, in order; the arrays are the caller's and
   * valid only during the call.
   *
   * @param deviceNanos device time of each, ns since the stream's first sample
   * @param counts reading of each
   */
  default void samples(long[] deviceNanos, int[] counts, int size) {
    for (int i = 0; i < size; i++) {
      sample(deviceNanos[i], counts[i]);
    }
  }

  /** The converter stood at the end of its range: a value, not a number. */
  void overrange(long deviceNanos, Rail rail);

  /** Samples are missing here, or the time axis is broken; the next sample follows it. */
  void gap(Gap gap);

  /** The stream ends (link lost, file read): nothing follows. */
  void end();
}
