package snick.daemon;

import java.nio.file.Path;
import java.util.Collection;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.TimeUnit;

/** Ports that were asked in vain who is there, and when they may be asked again. One thread. */
final class AskedPorts {
  private static final long PEACE_NANOS = TimeUnit.SECONDS.toNanos(60);

  private final Map<Path, Long> askedNanos = new HashMap<>();

  /** Forgets all but {@code here}: what is plugged in again may be another device. */
  void keep(Collection<Path> here) {
    askedNanos.keySet().retainAll(here);
  }

  /** Whether {@code path} was not asked in vain within the last minute. */
  boolean due(Path path, long nowNanos) {
    Long then = askedNanos.get(path);
    return then == null || nowNanos - then >= PEACE_NANOS;
  }

  /** The one that is looked for is not at {@code path}. */
  void inVain(Path path, long nowNanos) {
    askedNanos.put(path, nowNanos);
  }
}
