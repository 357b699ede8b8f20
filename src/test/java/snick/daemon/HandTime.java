package snick.daemon;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.TreeMap;
import snick.daemon.link.HostTime;

/** Time that passes only when somebody waits; what is planned happens on its way. One thread. */
public final class HandTime extends Clock implements HostTime {
  private static final Instant BEGIN = Instant.parse("2026-03-01T12:00:00Z");
  private static final long MONOTONIC_BEGIN_NANOS = Long.MAX_VALUE - 5_000_000_000L;

  private final TreeMap<Long, Runnable> plans = new TreeMap<>();
  private long passedNanos;

  /** {@code what} happens {@code seconds} after the beginning. */
  public HandTime at(double seconds, Runnable what) {
    plans.merge(Math.round(seconds * 1e9), what, HandTime::both);
    return this;
  }

  private static Runnable both(Runnable first, Runnable second) {
    return () -> {
      first.run();
      second.run();
    };
  }

  public double seconds() {
    return passedNanos / 1e9;
  }

  /** Time passes. */
  public void pass(long nanos) {
    long target = passedNanos + nanos;
    while (!plans.isEmpty() && plans.firstKey() <= target) {
      passedNanos = Math.max(passedNanos, plans.firstKey());
      plans.pollFirstEntry().getValue().run();
    }
    passedNanos = target;
  }

  /** Overflows after five seconds, as a monotonic clock may. */
  @Override
  public long monotonicNanos() {
    return MONOTONIC_BEGIN_NANOS + passedNanos;
  }

  @Override
  public void pause(Duration length) {
    pass(length.toNanos());
  }

  @Override
  public Instant instant() {
    return BEGIN.plusNanos(passedNanos);
  }

  @Override
  public ZoneId getZone() {
    return ZoneOffset.UTC;
  }

  @Override
  public Clock withZone(ZoneId zone) {
    throw new UnsupportedOperationException();
  }
}
