package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.Executor;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.junit.jupiter.api.Test;
import snick.cut.response.Response;

/** A stream of seven presses on a well damped fixture, from the textbook's solution. */
class StreamLearningTest {
  private static final int PRESSES = 7;
  private static final double PER_SECOND = 80;
  private static final double PRESS_SECONDS = 3.7;
  private static final double BREAK_SECONDS = 3.1;
  private static final double HERTZ = 22;
  private static final double RATIO = 0.3;

  private static double share(double t) {
    double omega = 2 * Math.PI * HERTZ;
    double damped = omega * Math.sqrt(1 - RATIO * RATIO);
    if (t < 0) {
      return Math.max(0, 1 + t);
    }
    double swing = Math.cos(damped * t) + RATIO * omega / damped * Math.sin(damped * t);
    return Math.exp(-RATIO * omega * t) * swing;
  }

  private static List<Cut> cuts(Executor beside, int handOnEvery) {
    List<Cut> cuts = new ArrayList<>();
    CutDetector detector = CutDetector.learning(DetectorSettings.defaults(), cuts::add, beside);
    Random random = new Random(20262);
    int n = (int) (PRESSES * PRESS_SECONDS * PER_SECOND + 2 * PER_SECOND);
    for (int i = 0; i < n; i++) {
      double t = i / PER_SECOND;
      double since = t - PRESS_SECONDS * Math.floor(t / PRESS_SECONDS) - BREAK_SECONDS;
      double force = t < PRESSES * PRESS_SECONDS ? share(since + 0.003 * Math.floor(t)) : 0;
      detector.sample(Math.round(t * 1e9), (int) (1e5 * force + 60 * random.nextGaussian()));
      if (i % handOnEvery == 0) {
        detector.handOn();
      }
    }
    detector.end();
    return cuts;
  }

  @Test
  void knowsTheRigFromTheSixthCutOn() {
    List<Cut> cuts = cuts(Runnable::run, 1000);
    assertThat(cuts).hasSize(PRESSES).allMatch(cut -> cut.outcome() == Outcome.SEVERED);
    assertThat(cuts.subList(0, 5)).allMatch(cut -> cut.response().equals(Response.unknown()));
    assertThat(cuts.subList(5, PRESSES)).allMatch(cut -> cut.response().falls() == 5);
  }

  @Test
  void givesTheSameHoweverItIsRead() {
    ExecutorService beside = Executors.newSingleThreadExecutor();
    try {
      assertThat(cuts(beside, 100_000)).isEqualTo(cuts(Runnable::run, 7));
    } finally {
      beside.shutdownNow();
    }
  }
}
