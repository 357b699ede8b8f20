package snick.store.record;

import java.time.Instant;

/**
 * How a recording's device clock lies on the host's.
 *
 * @param deviceZero host time at device time 0
 * @param rateErrorPpm by how much the device's clock is slow against the host's, parts per million
 *     (positive: it counts too few microseconds), finite
 */
public record HostClock(Instant deviceZero, double rateErrorPpm) {
  public HostClock {
    if (!Double.isFinite(rateErrorPpm)) {
      throw new IllegalArgumentException("clock rate error of " + rateErrorPpm + " ppm");
    }
  }
}
