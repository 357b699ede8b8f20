package snick.daemon.link;

import java.time.Duration;

/** How time passes on this machine: tests give one that they move by hand. Any thread. */
public interface HostTime {
  /** That of this machine. */
  HostTime REAL =
      new HostTime() {
        @Override
        public long monotonicNanos() {
          return System.nanoTime();
        }

        @Override
        public void pause(Duration length) throws InterruptedException {
          Thread.sleep(length.toMillis());
        }
      };

  /** A time that never goes back, ns from any beginning. */
  long monotonicNanos();

  /** Returns after {@code length}. */
  void pause(Duration length) throws InterruptedException;
}
