package snick.store;

import java.time.Instant;

/**
 * How a recording's device clock lies on the host's.
 *
 * @param deviceZero host time at device time 0
 * @param rateErrorPpm how much faster the device's clock runs, parts per million, finite
 */
public record HostClock(Instant deviceZero, double rateErrorPpm) {
  public HostClock {
    if (!Double.isFinite(rateErrorPpm)) {
      throw new IllegalArgumentException("clock rate error of " + rateErrorPpm + " ppm");
    }
  }
}
