package snick.virtualrig;

import java.util.stream.IntStream;

/** Cuts of invented strengths at even distances. */
final class CutsFromTimeToTime {
  private static final double LEAST_GRAM_FORCE = 90;
  private static final double STEP_GRAM_FORCE = 7;
  private static final int STRENGTHS = 20;
  private static final double RATE_GRAM_FORCE_PER_SECOND = 100;
  private static final double AFTERWARDS_SECONDS = 2;

  private CutsFromTimeToTime() {}

  /** So many cuts, each after a rest; s from cut to cut, 3 or more. */
  static Script of(double everySeconds, int cuts) {
    return new Script(
            IntStream.range(0, cuts)
                .boxed()
                .<Action>mapMulti(
                    (i, next) -> {
                      double gramForce = LEAST_GRAM_FORCE + i % STRENGTHS * STEP_GRAM_FORCE;
                      double loadingSeconds = gramForce / RATE_GRAM_FORCE_PER_SECOND;
                      next.accept(new Action.Rest(everySeconds - loadingSeconds));
                      next.accept(Action.Cut.ofGramForce(gramForce, RATE_GRAM_FORCE_PER_SECOND));
                    })
                .toList())
        .then(new Action.Rest(AFTERWARDS_SECONDS));
  }
}
