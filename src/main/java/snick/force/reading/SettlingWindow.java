package snick.force.reading;

import java.util.OptionalDouble;

/** The newest samples, and the straight line through them. One thread. */
final class SettlingWindow {
  private static final int CAPACITY = 16_384;
  private static final int FEWEST_SAMPLES = 8;
  private static final double FULL = 0.95;

  private final long[] nanos = new long[CAPACITY];
  private final int[] counts = new int[CAPACITY];
  private final long lengthNanos;
  private int first;
  private int size;

  SettlingWindow(double seconds) {
    lengthNanos = Math.round(seconds * 1e9);
  }

  void clear() {
    size = 0;
  }

  void add(long deviceNanos, int reading) {
    if (size == CAPACITY) {
      dropOldest();
    }
    nanos[place(size)] = deviceNanos;
    counts[place(size)] = reading;
    size++;
    while (size > 0 && deviceNanos - nanos[first] > lengthNanos) {
      dropOldest();
    }
  }

  private void dropOldest() {
    first = (first + 1) % CAPACITY;
    size--;
  }

  private int place(int i) {
    return (first + i) % CAPACITY;
  }

  private long spanNanos() {
    return size < 2 ? 0 : nanos[place(size - 1)] - nanos[first];
  }

  private boolean full() {
    return size >= FEWEST_SAMPLES && (spanNanos() >= FULL * lengthNanos || size == CAPACITY);
  }

  /** Least-squares line through the window, times in s from its first sample. */
  private record Line(double mean, double slopePerSecond, double sd) {}

  private Line line() {
    double sumTime = 0;
    double sumCounts = 0;
    for (int i = 0; i < size; i++) {
      sumTime += seconds(i);
      sumCounts += counts[place(i)];
    }
    double meanTime = sumTime / size;
    double mean = sumCounts / size;
    double timeSquares = 0;
    double cross = 0;
    double squares = 0;
    for (int i = 0; i < size; i++) {
      double t = seconds(i) - meanTime;
      double c = counts[place(i)] - mean;
      timeSquares += t * t;
      cross += t * c;
      squares += c * c;
    }
    double slope = timeSquares > 0 ? cross / timeSquares : 0;
    double residual = Math.max(0, squares - slope * cross);
    return new Line(mean, slope, Math.sqrt(residual / Math.max(1, size - 2)));
  }

  private double seconds(int i) {
    return (nanos[place(i)] - nanos[first]) / 1e9;
  }

  /** How far the window has settled. */
  Steadiness.Settling settling(Steadiness criterion, OptionalDouble noiseCounts) {
    if (size < 3) {
      return Steadiness.Settling.NOTHING;
    }
    Line line = line();
    double noise = Math.max(1, noiseCounts.orElse(line.sd()));
    double drift = line.slopePerSecond() * spanNanos() / 1e9;
    double driftLimit = criterion.driftInNoise() * noise;
    double scatterLimit = criterion.scatterInNoise() * noise;
    boolean steady = full() && Math.abs(drift) <= driftLimit && line.sd() <= scatterLimit;
    return new Steadiness.Settling(
        spanNanos() / 1e9, drift, driftLimit, line.sd(), scatterLimit, steady);
  }

  /** The window as one reading; only if it holds at least three samples. */
  HeldReading reading() {
    Line line = line();
    return new HeldReading(line.mean(), line.sd(), size, nanos[first], nanos[place(size - 1)]);
  }

  boolean isFull() {
    return full();
  }
}
