package snick.live;

import java.util.OptionalDouble;
import java.util.concurrent.atomic.AtomicReference;

/**
 * Where along the edge the person is going to cut next, if said: the next cut takes it. Safe for
 * any thread.
 */
public final class NextSpot {
  private final AtomicReference<OptionalDouble> placeMm =
      new AtomicReference<>(OptionalDouble.empty());

  /** The next cut will be {@code mm} from the heel; empty if it is not said. */
  public void set(OptionalDouble mm) {
    placeMm.set(mm);
  }

  /** What was said; hand the same object to {@link #used}. */
  public OptionalDouble get() {
    return placeMm.get();
  }

  /** A cut took {@code mm}: it holds for no further cut, unless another was said meanwhile. */
  public void used(OptionalDouble mm) {
    placeMm.compareAndSet(mm, OptionalDouble.empty());
  }
}
