package snick.daemon;

import java.time.Instant;
import snick.cut.Cut;
import snick.force.budget.DerivedForce;

/**
 * A cut that is stored for good.
 *
 * @param id its id in the store
 * @param rig number of the rig it comes from, from 0
 * @param cut the event
 * @param force its force, or why there is none
 * @param observedMaximum force of the largest sample, likewise
 * @param occurredAt host time of the break, or of the onset
 * @param latencyNanos time from reading the sample that ended it to the commit, ns
 */
public record AnnouncedCut(
    long id,
    int rig,
    Cut cut,
    DerivedForce force,
    DerivedForce observedMaximum,
    Instant occurredAt,
    long latencyNanos) {}
