package snick.cut.rest;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The sampling period is learned from stamps that jitter, jump and break off. */
class PeriodTrackerTest {
  private final PeriodTracker tracker = new PeriodTracker();
  private final Random random = new Random(3);

  private long stamps(long from, double periodNanos, int n, double jitter) {
    for (int i = 0; i < n; i++) {
      double late = jitter * periodNanos * random.nextDouble();
      tracker.stamp(from + Math.round(i * periodNanos + late));
    }
    return from + Math.round(n * periodNanos);
  }

  @Test
  void eightyHertzIsTheFirstGuess() {
    assertThat(tracker.known()).isFalse();
    assertThat(tracker.periodNanos()).isEqualTo(12.5e6);
  }

  @ParameterizedTest
  @ValueSource(doubles = {10, 80, 320, 1000})
  void learnsThroughJitter(double hertz) {
    stamps(0, 1e9 / hertz, 400, 0.5);
    assertThat(tracker.known()).isTrue();
    assertThat(1e9 / tracker.periodNanos()).isCloseTo(hertz, within(0.02 * hertz));
  }

  @Test
  void aJumpInTimeDoesNotMoveIt() {
    long now = stamps(0, 12.5e6, 200, 0);
    now = stamps(now + 3_000_000_000L, 12.5e6, 40, 0);
    assertThat(tracker.periodNanos()).isCloseTo(12.5e6, within(1.0));
    tracker.gap();
    stamps(now + 9_000_000_000L, 12.5e6, 40, 0);
    assertThat(tracker.periodNanos()).isCloseTo(12.5e6, within(1.0));
  }

  @Test
  void stampsThatStandStillAreNoPeriod() {
    for (int i = 0; i < 100; i++) {
      tracker.stamp(5);
    }
    assertThat(tracker.periodNanos()).isEqualTo(12.5e6);
  }

  @Test
  void anotherRateIsLearnedInNineBlocks() {
    long now = stamps(0, 12.5e6, 400, 0);
    stamps(now, 3.125e6, 9 * 16, 0);
    assertThat(tracker.periodNanos()).isCloseTo(3.125e6, within(1.0));
  }
}
