package snick.virtualrig.line;

import java.util.function.LongSupplier;
import snick.virtualrig.settings.SettingRange;

/** How the rig's time follows the host's. For one thread. */
public interface Pacer {
  /** Host time to wait until the rig's time {@code rigNanos} is due, ns; 0 or less if it is. */
  long waitNanos(long rigNanos);

  /** The rig's time now, ns, known to lie from {@code least} to {@code most}. */
  long rigNanos(long least, long most);

  /** Rig time stood still until now; it goes on from {@code rigNanos}. */
  void goOnFrom(long rigNanos);

  /**
   * From now on, rig time passes {@code speed} times as fast as the clock.
   *
   * @param clockNanos a clock that never goes back, ns, for example {@code System::nanoTime}
   * @param speed 1 for real time, 0.001 to 1 000 000
   */
  static Pacer of(LongSupplier clockNanos, double speed) {
    SettingRange.check("speed", speed, 1e-3, 1e6);
    return new EvenPacer(clockNanos, speed);
  }

  /** As fast as the machine can. */
  static Pacer unthrottled() {
    return new Pacer() {
      @Override
      public long waitNanos(long rigNanos) {
        return 0;
      }

      @Override
      public long rigNanos(long least, long most) {
        return least;
      }

      @Override
      public void goOnFrom(long rigNanos) {
        // It never waits, so it has nothing to make up for.
      }
    };
  }
}
