package snick.daemon;

import java.time.Instant;
import java.util.Optional;
import snick.cut.Cut;
import snick.force.DerivedForce;

/**
 * A cut that is stored for good.
 *
 * @param id its id in the store
 * @param rig number of the rig it comes from, from 0
 * @param cut the event
 * @param force its force; empty if there is no calibration for this rig, or no peak
 * @param observedMaximum force of the largest sample, likewise
 * @param occurredAt host time of the break, or of the onset
 * @param latencyNanos time from reading the sample that ended it to the commit, ns
 */
public record AnnouncedCut(
    long id,
    int rig,
    Cut cut,
    Optional<DerivedForce> force,
    Optional<DerivedForce> observedMaximum,
    Instant occurredAt,
    long latencyNanos) {}
