package snick.daemon;

import java.util.List;
import java.util.Optional;
import snick.cut.Cut;
import snick.force.Calibration;
import snick.force.DerivedForce;

/**
 * The calibration in use for one recording, or the reasons why there is none.
 *
 * @param calibration the calibration
 * @param reasons why there is none, one sentence each, for people; empty if there is one
 */
public record Scale(Optional<Calibration> calibration, List<String> reasons) {
  /** Cuts get a force by {@code calibration}. */
  public static Scale by(Calibration calibration) {
    return new Scale(Optional.of(calibration), List.of());
  }

  /** Cuts stay in counts. */
  public static Scale none(String... reasons) {
    return new Scale(Optional.empty(), List.of(reasons));
  }

  /** Force at the break, with the peak's own uncertainty. */
  public DerivedForce estimate(Cut cut) {
    return cut.peak()
        .flatMap(
            p -> calibration.map(c -> c.derive(p.estimateCounts(), p.standardUncertaintyCounts())))
        .orElseGet(this::none);
  }

  /** Force of the largest sample. */
  public DerivedForce observedMaximum(Cut cut) {
    return cut.peak()
        .flatMap(p -> calibration.map(c -> c.derive(p.observedMaxCounts(), 0)))
        .orElseGet(this::none);
  }

  private DerivedForce none() {
    return new DerivedForce.Uncalibrated(
        reasons.isEmpty() ? List.of("the event has no usable sample") : reasons);
  }
}
