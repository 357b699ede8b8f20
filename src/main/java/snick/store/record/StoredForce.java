package snick.store.record;

import java.time.Instant;

/**
 * A force of a result in the store.
 *
 * @param id its id; of a result's forces the one with the largest id is current
 * @param resultId the result of the cut that it was derived from
 * @param createdAt when it was stored
 * @param force the force, and the calibration it was derived with
 */
public record StoredForce(long id, long resultId, Instant createdAt, CutForce force) {}
