package snick.store.record;

import java.util.Optional;

/**
 * What was derived from a cut's trace before what stands now: a result, and one force of it.
 *
 * @param number number of the result among the cut's, from 1; a result with several forces comes
 *     once for each
 * @param stands whether the result is the one that stands, with a later force
 * @param result the result
 * @param force the force, if it had one
 */
public record EarlierResult(
    int number, boolean stands, Derivation result, Optional<StoredForce> force) {}
