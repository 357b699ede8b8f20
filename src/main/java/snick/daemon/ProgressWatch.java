package snick.daemon;

import java.util.List;

/** Whether all of several loops have gone round since it was last so. One thread. */
final class ProgressWatch {
  private final List<Rounds> loops;
  private final long[] seen;

  ProgressWatch(List<Rounds> loops) {
    this.loops = List.copyOf(loops);
    this.seen = new long[loops.size()];
  }

  /** True if each loop has gone round, or has ended, since this was last true. */
  boolean allWent() {
    for (int i = 0; i < seen.length; i++) {
      if (!loops.get(i).over() && loops.get(i).count() == seen[i]) {
        return false;
      }
    }
    for (int i = 0; i < seen.length; i++) {
      seen[i] = loops.get(i).count();
    }
    return true;
  }
}
