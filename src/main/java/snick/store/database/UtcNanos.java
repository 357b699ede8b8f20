package snick.store.database;

import java.time.Instant;

/** Instants as the store keeps them: whole nanoseconds since 1970-01-01T00:00Z, years 1678–2262. */
public final class UtcNanos {
  private static final long PER_SECOND = 1_000_000_000L;

  private UtcNanos() {}

  public static long of(Instant instant) {
    try {
      return Math.addExact(
          Math.multiplyExact(instant.getEpochSecond(), PER_SECOND), instant.getNano());
    } catch (ArithmeticException e) {
      throw new IllegalArgumentException(
          "time " + instant + " is outside the years 1678 to 2262; check the clock", e);
    }
  }

  static Instant instant(long nanos) {
    return Instant.ofEpochSecond(
        Math.floorDiv(nanos, PER_SECOND), Math.floorMod(nanos, PER_SECOND));
  }
}
