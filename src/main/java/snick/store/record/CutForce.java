package snick.store.record;

import snick.force.budget.DerivedForce;
import snick.quantity.Force;

/**
 * What a calibration makes of a cut's peak.
 *
 * @param estimate force at the break, with its uncertainty
 * @param observedMax force of the largest sample
 */
public record CutForce(DerivedForce estimate, Force observedMax) {}
