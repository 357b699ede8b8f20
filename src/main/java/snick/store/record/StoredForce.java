package snick.store.record;

import java.time.Instant;

/**
 * A force of a result in the store; of a result's forces the one stored last is current.
 *
 * @param resultId the result of the cut that it was derived from
 * @param createdAt when it was stored
 * @param force the force, with a calibration that is in the store
 */
public record StoredForce(long resultId, Instant createdAt, CutForce force) {}
