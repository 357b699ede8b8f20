package snick.report.plot;

import java.util.Optional;
import snick.cut.Flag;
import snick.cut.Outcome;
import snick.quantity.MeasuredForce;
import snick.store.record.CutSummary;

/** Cut-through forces of stored cuts. */
public final class StageForces {
  private StageForces() {}

  /** Force of a cut; empty unless the filament parted and there is a calibration. */
  public static Optional<MeasuredForce> of(CutSummary cut) {
    Outcome outcome = cut.figures().outcome();
    return outcome == Outcome.SEVERED || outcome == Outcome.PARTED_IN_STEPS
        ? cut.force().flatMap(f -> f.estimate().measured())
        : Optional.empty();
  }

  /** Whether the force dipped before the peak or the filament parted in steps. */
  static boolean uneven(CutSummary cut) {
    return cut.figures().outcome() == Outcome.PARTED_IN_STEPS
        || cut.figures().flags().contains(Flag.DIPS_BEFORE_PEAK);
  }
}
