package snick.store.record;

import java.time.Instant;
import java.util.Optional;
import snick.force.budget.Calibration;

/**
 * A calibration in the store.
 *
 * @param number 1 for the first one stored
 * @param createdAt when it was stored
 * @param calibration the calibration
 * @param document points, fit and procedure as its maker wrote them down, if given
 */
public record StoredCalibration(
    long number, Instant createdAt, Calibration calibration, Optional<String> document) {}
