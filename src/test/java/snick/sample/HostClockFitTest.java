package snick.sample;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Arrivals are simulated: a constant offset, a clock error, and delays that are never negative. */
class HostClockFitTest {
  private static final long SECOND = 1_000_000_000L;
  private static final long OFFSET_NANOS = 123 * SECOND;

  @Test
  void findsTheRateErrorUnderSchedulingDelays() {
    HostClockFit fit = arrivals(600, 250, new SplittableRandom(1));

    assertThat(fit.rateErrorPpm().orElseThrow()).isCloseTo(250, within(3.0));
  }

  @Test
  void mapsDeviceTimeToHostTimeWithinTheSmallestDelay() {
    HostClockFit fit = arrivals(600, -80, new SplittableRandom(2));
    long device = 599 * SECOND;
    long host = OFFSET_NANOS + Math.round(device * (1 - 80e-6));

    assertThat(fit.hostNanos(device).orElseThrow()).isCloseTo(host, within(2_000_000L));
  }

  @Test
  void aLongStallDoesNotSpoilTheFit() {
    SplittableRandom random = new SplittableRandom(3);
    HostClockFit fit = new HostClockFit();
    for (int i = 0; i < 80 * 100; i++) {
      long device = i * SECOND / 80;
      boolean stalled = i > 80 * 40 && i < 80 * 55;
      long delay = stalled ? SECOND : random.nextLong(4_000_000);
      fit.observe(device, OFFSET_NANOS + Math.round(device * (1 + 50e-6)) + delay);
    }

    assertThat(fit.rateErrorPpm().orElseThrow()).isCloseTo(50, within(15.0));
  }

  @Test
  void saysNothingBeforeFourBlocks() {
    HostClockFit fit = new HostClockFit();
    assertThat(fit.hostNanos(0)).isEmpty();
    fit.observe(0, OFFSET_NANOS);
    fit.observe(SECOND / 2, OFFSET_NANOS + SECOND / 2);

    assertThat(fit.rateErrorPpm()).isEmpty();
    assertThat(fit.hostNanos(SECOND)).hasValue(OFFSET_NANOS + SECOND);
  }

  @Test
  void forgetsWhatWasBeforeARestart() {
    HostClockFit fit = arrivals(30, 0, new SplittableRandom(4));
    fit.forget();

    assertThat(fit.hostNanos(0)).isEmpty();
  }

  private static HostClockFit arrivals(int seconds, double ppm, SplittableRandom random) {
    HostClockFit fit = new HostClockFit();
    for (int i = 0; i < seconds * 80; i++) {
      long device = i * SECOND / 80;
      long delay =
          random.nextInt(50) == 0 ? random.nextLong(90_000_000) : random.nextLong(4_000_000);
      fit.observe(device, OFFSET_NANOS + Math.round(device * (1 + ppm * 1e-6)) + delay);
    }
    return fit;
  }
}
