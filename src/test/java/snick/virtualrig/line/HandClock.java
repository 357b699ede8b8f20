package snick.virtualrig.line;

import java.util.concurrent.atomic.AtomicLong;

/** A clock that a test moves by hand. */
public final class HandClock {
  private final AtomicLong nanos = new AtomicLong();

  public long nanos() {
    return nanos.get();
  }

  public void advanceSeconds(double seconds) {
    nanos.addAndGet(Math.round(seconds * 1e9));
  }
}
