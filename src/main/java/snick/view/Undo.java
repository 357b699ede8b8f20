package snick.view;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/**
 * What was last done on the page and can be taken back. Kept in memory: after a restart only
 * corrections by other means remain. Used by one thread.
 */
final class Undo {
  private static final int KEPT = 20;

  private final Deque<Step> steps = new ArrayDeque<>();

  private record Step(Phrase what, Runnable back) {}

  /** {@code what} was done, and {@code back} takes it back. */
  void done(Phrase what, Runnable back) {
    steps.push(new Step(what, back));
    if (steps.size() > KEPT) {
      steps.removeLast();
    }
  }

  /** What would be taken back. */
  Optional<Phrase> last() {
    return Optional.ofNullable(steps.peek()).map(Step::what);
  }

  /**
   * Takes the last act back; says which.
   *
   * @throws NotAccepted if there is none, or if something else came in between; then it is offered
   *     no more
   */
  Phrase back() {
    Step step = steps.poll();
    if (step == null) {
      throw new NotAccepted("refused.nothing_to_undo");
    }
    step.back().run();
    return step.what();
  }

  /** Another session runs: nothing of the former is taken back from here. */
  void forget() {
    steps.clear();
  }
}
