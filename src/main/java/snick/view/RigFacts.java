package snick.view;

import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.force.budget.Calibration;

/**
 * What the page knows of a rig beside its state. Immutable.
 *
 * @param calibration gives its cuts a force, if there is one
 * @param firstZeroCounts reading at rest when the page first saw one, counts; empty until then
 * @param polarity +1 if load raises the reading, −1 if it lowers it; +1 until a cut tells
 * @param verifiedAt when a check mass was last put on
 * @param verifiedWithinLimit whether it was shown within limits
 * @param linkSince since when its link is as it is
 */
record RigFacts(
    Optional<Calibration> calibration,
    OptionalDouble firstZeroCounts,
    int polarity,
    Optional<Instant> verifiedAt,
    Optional<Boolean> verifiedWithinLimit,
    Optional<Instant> linkSince) {}
