package snick.frame.message;

/**
 * Readings of text lines that followed each other, in units of the last digit: all with time or all
 * without. One object is used again: read it inside the call that hands it over and keep nothing of
 * it.
 */
public final class ReadingBatch {
  /** Most readings in one batch. */
  public static final int MAX_READINGS = 512;

  private final long[] micros = new long[MAX_READINGS];
  private final int[] counts = new int[MAX_READINGS];
  private int size;
  private boolean timed;

  /** Forget the contents. */
  public void clear() {
    size = 0;
  }

  /** Whether a reading, with time or without, may be added. */
  public boolean takes(boolean timed) {
    return size == 0 || (this.timed == timed && size < MAX_READINGS);
  }

  /** Append a reading; without time, {@code deviceMicros} means nothing. */
  public void add(boolean timed, long deviceMicros, int reading) {
    this.timed = timed;
    micros[size] = deviceMicros;
    counts[size++] = reading;
  }

  /** Number of readings, 1 to {@link #MAX_READINGS}. */
  public int size() {
    return size;
  }

  /** Whether the readings have times. */
  public boolean timed() {
    return timed;
  }

  /** Device clock of reading {@code i}, µs, as printed; only if {@link #timed}. */
  public long micros(int i) {
    return micros[i];
  }

  /** Reading {@code i}, counts. */
  public int counts(int i) {
    return counts[i];
  }
}
