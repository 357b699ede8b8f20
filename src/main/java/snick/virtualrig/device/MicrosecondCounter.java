package snick.virtualrig.device;

/** The device's microsecond counter: starts where it likes, runs a little fast, wraps. */
public final class MicrosecondCounter {
  private static final long WRAP_MASK = 0xFFFF_FFFFL;

  private final double rate;
  private long startMicros;
  private long originNanos;

  public MicrosecondCounter(double errorPpm, long startMicros) {
    this.rate = 1 + errorPpm * 1e-6;
    this.startMicros = startMicros;
  }

  /** Start again from 0 at this true time, ns. */
  public void reset(long trueNanos) {
    originNanos = trueNanos;
    startMicros = 0;
  }

  /** Clock at a true time, ns, not wrapped. */
  public long nanos(long trueNanos) {
    return startMicros * 1000 + Math.round((trueNanos - originNanos) * rate);
  }

  /** The counter at a true time, µs, 32 bits unsigned. */
  long micros(long trueNanos) {
    return Math.floorDiv(nanos(trueNanos), 1000L) & WRAP_MASK;
  }
}
