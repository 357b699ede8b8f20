package snick.store.record;

import java.util.Optional;
import snick.cut.Cut;

/**
 * A stored cut, derived again. Earlier results and forces stay.
 *
 * @param cutId the stored cut
 * @param cut what this program's detector makes of its trace; empty to keep the current result
 * @param force force of that result; empty if uncalibrated
 */
public record NewResult(long cutId, Optional<Cut> cut, Optional<CutForce> force) {}
