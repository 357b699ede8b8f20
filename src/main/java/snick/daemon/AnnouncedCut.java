package snick.daemon;

import snick.cut.Cut;
import snick.force.budget.DerivedForce;
import snick.store.record.NewCut;

/**
 * A cut that is stored for good.
 *
 * @param id its id in the store
 * @param rig number of the rig it comes from, from 0
 * @param stored what was stored
 * @param force its force, or why there is none
 * @param latencyNanos time from reading the sample that ended it to the commit, ns
 */
public record AnnouncedCut(long id, int rig, NewCut stored, DerivedForce force, long latencyNanos) {
  /** The event. */
  public Cut cut() {
    return stored.cut();
  }
}
