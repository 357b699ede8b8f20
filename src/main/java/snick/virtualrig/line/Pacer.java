package snick.virtualrig.line;

import java.util.function.LongSupplier;
import snick.virtualrig.settings.SettingRange;

/** How the rig's time follows the host's: in proportion to a clock. For one thread. */
public final class Pacer {
  private final LongSupplier clockNanos;
  private final double speed;
  private long startNanos;

  private Pacer(LongSupplier clockNanos, double speed) {
    this.clockNanos = clockNanos;
    this.speed = speed;
    this.startNanos = clockNanos.getAsLong();
  }

  /**
   * From now on, rig time passes {@code speed} times as fast as the clock.
   *
   * @param clockNanos a clock that never goes back, ns, for example {@code System::nanoTime}
   * @param speed 1 for real time, 0.001 to 1 000 000
   */
  public static Pacer of(LongSupplier clockNanos, double speed) {
    SettingRange.check("speed", speed, 1e-3, 1e6);
    return new Pacer(clockNanos, speed);
  }

  /** Host time to wait until the rig's time {@code rigNanos} is due, ns; 0 or less if it is. */
  public long waitNanos(long rigNanos) {
    return startNanos + (long) (rigNanos / speed) - clockNanos.getAsLong();
  }

  /** The rig's time now, ns, known to lie from {@code least} to {@code most}. */
  public long rigNanos(long least, long most) {
    long now = (long) ((clockNanos.getAsLong() - startNanos) * speed);
    return Math.max(least, Math.min(most, now));
  }

  /** Rig time stood still until now; it goes on from {@code rigNanos}. */
  public void goOnFrom(long rigNanos) {
    startNanos = clockNanos.getAsLong() - (long) (rigNanos / speed);
  }
}
