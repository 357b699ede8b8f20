package snick.cli.recorder;

import java.util.Optional;
import snick.cli.terminal.Refusal;

/** How many cuts are still wanted; without end unless it is set. Any thread. */
final class CutsLeft {
  private int left = Integer.MAX_VALUE;
  private Optional<Runnable> then = Optional.empty();

  /** So many. */
  synchronized void set(int cuts) {
    if (cuts < 1) {
      throw Refusal.usage("--cuts " + cuts + " is not 1 or more");
    }
    left = cuts;
  }

  /** Does {@code then} once none is left. */
  synchronized void whenNone(Runnable then) {
    this.then = Optional.of(then);
    if (left == 0) {
      then.run();
    }
  }

  /** A cut came. */
  synchronized void oneLess() {
    if (left > 0 && left < Integer.MAX_VALUE && --left == 0) {
      then.ifPresent(Runnable::run);
    }
  }
}
