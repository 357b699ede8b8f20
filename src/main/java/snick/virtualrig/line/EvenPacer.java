package snick.virtualrig.line;

import java.util.function.LongSupplier;

/** Rig time in proportion to a clock. For one thread. */
final class EvenPacer implements Pacer {
  private final LongSupplier clockNanos;
  private final double speed;
  private long startNanos;

  EvenPacer(LongSupplier clockNanos, double speed) {
    this.clockNanos = clockNanos;
    this.speed = speed;
    this.startNanos = clockNanos.getAsLong();
  }

  @Override
  public long waitNanos(long rigNanos) {
    return startNanos + (long) (rigNanos / speed) - clockNanos.getAsLong();
  }

  @Override
  public long rigNanos(long least, long most) {
    long now = (long) ((clockNanos.getAsLong() - startNanos) * speed);
    return Math.max(least, Math.min(most, now));
  }

  @Override
  public void goOnFrom(long rigNanos) {
    startNanos = clockNanos.getAsLong() - (long) (rigNanos / speed);
  }
}
