package snick.daemon;

import java.time.Instant;
import java.util.Optional;
import snick.cut.Cut;
import snick.force.budget.Calibration;
import snick.store.record.Evidence;
import snick.store.record.HostClock;
import snick.store.record.Recording;

/** What the reader hands to the keeper, in order. */
sealed interface Work {
  /** Number of the rig it comes from, from 0, as the daemon counts them. */
  int rig();

  /**
   * A stream began: later cuts of this rig belong to it.
   *
   * @param form what is kept of its form
   */
  record StreamBegan(int rig, Recording recording, Optional<Evidence> form) implements Work {}

  /** The device clock's place on the host's clock is known better. */
  record ClockFitted(int rig, HostClock clock) implements Work {}

  /**
   * An event is over.
   *
   * @param occurredAt host time of the break, or of the onset if it did not break
   * @param endedNanos monotonic host time at which the sample that ended it was read, ns
   */
  record CutFinished(int rig, Cut cut, Instant occurredAt, long endedNanos) implements Work {}

  /** From now on this calibration gives the rig's cuts a force; it is in the store. */
  record Calibrated(int rig, Calibration calibration) implements Work {}

  /** Nothing follows from any rig. */
  record Finish() implements Work {
    @Override
    public int rig() {
      return 0;
    }
  }
}
