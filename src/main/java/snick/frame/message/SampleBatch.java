package snick.frame.message;

/**
 * A batch of conversion results as it came in one frame. One object is used again for every frame:
 * read it inside the call that hands it over and keep nothing of it.
 */
public final class SampleBatch {
  /** Most samples in one batch. */
  public static final int MAX_SAMPLES = 64;

  private final int[] counts = new int[MAX_SAMPLES];
  private int size;
  private long sequence;
  private long firstMicros;
  private long spanMicros;

  /** Forget the contents and begin a batch. */
  public void begin(long sequence, long firstMicros, long spanMicros) {
    this.sequence = sequence;
    this.firstMicros = firstMicros;
    this.spanMicros = spanMicros;
    this.size = 0;
  }

  /** Append one reading. */
  public void add(int reading) {
    counts[size++] = reading;
  }

  /** Number of samples, 1 to {@link #MAX_SAMPLES}. */
  public int size() {
    return size;
  }

  /** Number of the first sample since the device's reset, 32 bits unsigned, wraps. */
  public long sequence() {
    return sequence;
  }

  /** Device clock when the first sample was ready, µs, 32 bits unsigned, wraps after 71.6 min. */
  public long firstMicros() {
    return firstMicros;
  }

  /** Device time from the first sample to the last, µs, 32 bits unsigned; 0 for one sample. */
  public long spanMicros() {
    return spanMicros;
  }

  /** Reading {@code i}, sign-extended, counts. */
  public int counts(int i) {
    return counts[i];
  }
}
