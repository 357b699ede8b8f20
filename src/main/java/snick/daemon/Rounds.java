package snick.daemon;

import java.util.concurrent.atomic.AtomicLong;

/**
 * How often a thread's loop went round. That thread writes; any thread reads. A loop goes round in
 * bounded time whether or not there is anything to do.
 */
final class Rounds {
  private final AtomicLong count = new AtomicLong();
  private volatile boolean over;

  /** The loop went round. */
  void went() {
    count.incrementAndGet();
  }

  /** The loop ended as it should: nothing more is expected of it. */
  void end() {
    over = true;
  }

  long count() {
    return count.get();
  }

  boolean over() {
    return over;
  }
}
