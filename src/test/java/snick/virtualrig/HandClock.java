package snick.virtualrig;

import java.util.concurrent.atomic.AtomicLong;

/** A clock that a test moves by hand. */
final class HandClock {
  private final AtomicLong nanos = new AtomicLong();

  long nanos() {
    return nanos.get();
  }

  void advanceSeconds(double seconds) {
    nanos.addAndGet(Math.round(seconds * 1e9));
  }
}
