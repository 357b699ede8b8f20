package snick.live;

import java.time.Instant;
import java.util.List;

/**
 * How the whole recorder is doing, at one moment. Immutable.
 *
 * @param startedAt when recording began
 * @param rigs one state a rig
 * @param storing whether the store takes what it is given
 * @param waiting finished events that wait to be stored
 * @param faults what went wrong so far
 */
public record BenchState(
    Instant startedAt, List<RigState> rigs, boolean storing, int waiting, List<Fact> faults) {
  public BenchState {
    rigs = List.copyOf(rigs);
    faults = List.copyOf(faults);
  }

  /** Whether every rig records. */
  public boolean recording() {
    return rigs.stream().allMatch(r -> r.link() == RigState.Link.RECORDING);
  }

  /** Samples known to be lost, all rigs. */
  public long lostSamples() {
    return rigs.stream().mapToLong(r -> r.traffic().facts().lost().samples()).sum();
  }

  /** Whether every rig's cuts get a force. */
  public boolean calibrated() {
    return rigs.stream().allMatch(r -> r.signal().calibrated());
  }
}
