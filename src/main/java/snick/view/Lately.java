package snick.view;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Function;

/** The latest results of a costly function. Used by one thread. */
final class Lately<K, V> {
  private static final int KEPT = 128;

  private final Function<K, V> function;
  private final Map<K, V> known = new LinkedHashMap<>(16, 0.75f, true);

  Lately(Function<K, V> function) {
    this.function = function;
  }

  /** The result for {@code argument}. */
  V of(K argument) {
    V found = known.computeIfAbsent(argument, function);
    if (known.size() > KEPT) {
      known.remove(known.keySet().iterator().next());
    }
    return found;
  }
}
