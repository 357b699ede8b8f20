package snick.view;

import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.force.budget.Calibration;
import snick.store.record.Verification;

/**
 * What the page knows of a rig beside its state. Immutable.
 *
 * @param calibration gives its cuts a force, if there is one
 * @param firstZeroCounts reading at rest when the page first saw one, counts; empty until then
 * @param check the last check mass that was put on
 * @param linkSince since when its link is as it is
 */
record RigFacts(
    Optional<Calibration> calibration,
    OptionalDouble firstZeroCounts,
    Optional<Verification> check,
    Optional<Instant> linkSince) {}
