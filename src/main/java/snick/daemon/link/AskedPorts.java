package snick.daemon.link;

import java.nio.file.Path;
import java.util.Collection;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.TimeUnit;

/** Ports that were asked in vain who is there, and when they may be asked again. One thread. */
final class AskedPorts {
  private static final long PEACE_NANOS = TimeUnit.SECONDS.toNanos(60);
  private static final long SHORTEST_PAUSE_NANOS = TimeUnit.SECONDS.toNanos(1);
  private static final long LONGEST_PAUSE_NANOS = TimeUnit.SECONDS.toNanos(8);

  private final Map<Path, Asked> asked = new HashMap<>();

  private record Asked(long atNanos, long pauseNanos) {}

  /** Forgets all but {@code here}: what is plugged in again may be another device. */
  void keep(Collection<Path> here) {
    asked.keySet().retainAll(here);
  }

  /** Whether {@code path} may be asked now: it never was, or its pause is over. */
  boolean due(Path path, long nowNanos) {
    Asked last = asked.get(path);
    return last == null || nowNanos - last.atNanos() >= last.pauseNanos();
  }

  /** The one that is looked for is not at {@code path}: it is let alone for a minute. */
  void inVain(Path path, long nowNanos) {
    asked.put(path, new Asked(nowNanos, PEACE_NANOS));
  }

  /** {@code path} could not be opened: its pause is a second, then twice as long, at most 8 s. */
  void shut(Path path, long nowNanos) {
    Asked last = asked.get(path);
    boolean first = last == null || last.pauseNanos() == PEACE_NANOS;
    long pauseNanos =
        first ? SHORTEST_PAUSE_NANOS : Math.min(2 * last.pauseNanos(), LONGEST_PAUSE_NANOS);
    asked.put(path, new Asked(nowNanos, pauseNanos));
  }
}
