package snick.view;

import java.util.List;
import snick.cut.Outcome;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.store.CutSummary;

/**
 * The cuts of a stage that its figures are made of. Immutable.
 *
 * @param stage name of the stage
 * @param gramForce forces of the cuts that parted at once, have a force and were not set aside, gf
 */
record StageCuts(String stage, List<Double> gramForce) {
  StageCuts {
    gramForce = List.copyOf(gramForce);
  }

  /** Those among {@code cuts}, all of one stage. */
  static StageCuts of(String stage, List<CutSummary> cuts) {
    return new StageCuts(
        stage,
        cuts.stream()
            .filter(cut -> cut.setAside().isEmpty())
            .filter(cut -> cut.result().outcome() == Outcome.SEVERED)
            .flatMap(cut -> cut.force().stream())
            .flatMap(force -> force.force().estimate().measured().stream())
            .map(MeasuredForce::value)
            .map(Force::gramForce)
            .toList());
  }
}
