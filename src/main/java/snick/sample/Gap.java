package snick.sample;

import snick.quantity.Worded;

/**
 * A place in the stream where samples are missing or the time axis is broken. A fact, not an error.
 *
 * @param cause why
 * @param fromNanos device time of the last sample before, ns since the stream's first sample
 * @param toNanos device time of the first sample after, ns; equal to {@code fromNanos} if unknown
 * @param lostSamples samples known to be lost; 0 if unknown, see {@code cause}
 */
public record Gap(Cause cause, long fromNanos, long toNanos, long lostSamples) {
  /** Why samples are missing. */
  public enum Cause implements Worded {
    /** The sequence numbers, or the device's own time stamps, show lost samples. */
    LOST_SAMPLES,
    /** The device restarted: its counters began again, the time between is unknown. */
    DEVICE_RESET,
    /** The link was closed and opened again. */
    LINK_REOPENED,
    /** The form of the readings changed (rate, gain, decimals): before and after do not compare. */
    FORM_CHANGED,
    /**
     * The device made no samples for a while (stopped, or its converter was lost); time goes on.
     */
    PAUSED
  }

  public Gap {
    if (toNanos < fromNanos || lostSamples < 0) {
      throw new IllegalArgumentException(
          "gap runs from " + fromNanos + " ns to " + toNanos + " ns, lost " + lostSamples);
    }
  }
}
