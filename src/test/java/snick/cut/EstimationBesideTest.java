package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import snick.sample.Gap;

/** Estimating beside the detection changes when cuts are handed on, and nothing else. */
@Timeout(60)
class EstimationBesideTest {
  private static final long PERIOD_NANOS = 12_500_000;
  private static final int REST = 100;
  private static final int RAMP = 90;

  private final ExecutorService other = Executors.newSingleThreadExecutor();
  private final List<Cut> beside = new ArrayList<>();
  private final List<Cut> atOnce = new ArrayList<>();
  private final Random random = new Random(20261127);
  private long nanos;

  @AfterEach
  void stop() {
    other.shutdownNow();
  }

  @Test
  void cutsAreTheSameInTheSameOrderFromTheThreadThatHandsOnSamples() {
    Thread own = Thread.currentThread();
    CutDetector detector =
        new CutDetector(
            DetectorSettings.defaults(),
            cut -> {
              assertThat(Thread.currentThread()).isSameAs(own);
              beside.add(cut);
            },
            other);
    CutDetector one = new CutDetector(DetectorSettings.defaults(), atOnce::add);
    for (int i = 0; i < 300; i++) {
      load(detector, one);
    }
    detector.end();
    one.end();
    assertThat(beside).hasSizeGreaterThan(290).isEqualTo(atOnce);
  }

  @Test
  void handOnWaitsForWhatIsFound() {
    CutDetector detector = besideOne();
    load(detector);
    assertThat(beside).isEmpty();
    detector.handOn();
    assertThat(beside).hasSize(1);
    assertThat(detector.found()).isEqualTo(1);
  }

  @Test
  void aBreakOfTheStreamHandsOnWhatCameBefore() {
    CutDetector detector = besideOne();
    load(detector);
    detector.gap(new Gap(Gap.Cause.FORM_CHANGED, nanos, nanos, 0));
    assertThat(beside).hasSize(1);
  }

  @Test
  void theEndHandsOnAll() {
    CutDetector detector = besideOne();
    load(detector);
    detector.end();
    assertThat(beside).hasSize(1);
  }

  /** Else a quick disk would fill the heap with cuts that nobody has estimated. */
  @Test
  void detectionWaitsWhenTooMuchIsNotEstimated() throws InterruptedException {
    Semaphore mayRun = new Semaphore(0);
    AtomicInteger loadings = new AtomicInteger();
    CutDetector detector =
        new CutDetector(
            DetectorSettings.defaults(),
            beside::add,
            task ->
                other.execute(
                    () -> {
                      mayRun.acquireUninterruptibly();
                      task.run();
                    }));
    Thread feeder =
        new Thread(
            () -> {
              for (int i = 0; i < 1000; i++) {
                load(detector);
                loadings.incrementAndGet();
              }
              detector.end();
            });
    feeder.start();
    while (feeder.getState() != Thread.State.WAITING) {
      TimeUnit.MILLISECONDS.sleep(1);
    }
    assertThat(loadings.get() * (2 * REST + RAMP)).isBetween(1 << 15, 1 << 17);
    mayRun.release(100_000);
    feeder.join();
    assertThat(beside).hasSizeGreaterThan(980);
  }

  @Test
  void aFailureBesideReachesWhoeverHandsOnSamples() {
    CutDetector detector =
        new CutDetector(
            DetectorSettings.defaults(),
            beside::add,
            task -> {
              throw new IllegalStateException("no room for a thread");
            });
    load(detector);
    assertThatThrownBy(detector::handOn).hasStackTraceContaining("no room for a thread");
  }

  private CutDetector besideOne() {
    return new CutDetector(DetectorSettings.defaults(), beside::add, other);
  }

  /** Rest, a ramp that parts, rest. */
  private void load(CutDetector... detectors) {
    double perSample = 300 + 900 * random.nextDouble();
    for (int i = 0; i < 2 * REST + RAMP; i++) {
      int loaded = i - REST;
      double force = loaded < 0 || loaded > RAMP ? 0 : perSample * loaded;
      int counts = (int) Math.rint(5000 + force + 60 * random.nextGaussian());
      for (CutDetector detector : detectors) {
        detector.sample(nanos, counts);
      }
      nanos += PERIOD_NANOS;
    }
  }
}
