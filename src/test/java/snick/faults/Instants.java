package snick.faults;

import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

/** Waiting, where an instant at random is the point. */
final class Instants {
  private static final long MOST_SECONDS = 60;

  private Instants() {}

  /** Lets so much time pass. */
  static void pass(long millis) {
    long end = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(millis);
    for (long left = end - System.nanoTime(); left > 0; left = end - System.nanoTime()) {
      LockSupport.parkNanos(left);
    }
  }

  /** Waits until {@code condition} holds, at most a minute. */
  static void await(String what, Condition condition) throws Exception {
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(MOST_SECONDS);
    while (!condition.holds()) {
      if (System.nanoTime() > end) {
        throw new AssertionError("not within a minute: " + what);
      }
      pass(20);
    }
  }

  /** Something that becomes true. */
  @FunctionalInterface
  interface Condition {
    boolean holds() throws Exception;
  }
}
