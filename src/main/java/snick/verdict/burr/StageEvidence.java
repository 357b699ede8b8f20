package snick.verdict.burr;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import snick.cut.Flag;
import snick.cut.Outcome;
import snick.force.budget.DerivedForce;
import snick.journal.CutPlacement;
import snick.journal.Inspection;
import snick.journal.SessionLog;
import snick.journal.SharpeningStep;
import snick.journal.Stage;
import snick.quantity.Force;
import snick.verdict.statistic.Readings;

/**
 * Everything known of one stage: what was measured, what was looked at, what had been done.
 *
 * @param stage the stage
 * @param cuts cuts that count, in the order made
 * @param inspections inspections that stand, in the order made
 * @param steps sharpening steps that led to it
 */
public record StageEvidence(
    Stage stage, List<PlacedCut> cuts, List<Inspection> inspections, List<SharpeningStep> steps) {
  /**
   * The result of one cut.
   *
   * @param force cut-through force
   * @param uneven whether the force dipped before the peak or the filament parted in steps
   */
  public record CutResult(Force force, boolean uneven) {
    /** What an event says of the edge; empty unless the filament parted and there is a force. */
    public static Optional<CutResult> of(Outcome outcome, Set<Flag> flags, DerivedForce force) {
      boolean inSteps = outcome == Outcome.PARTED_IN_STEPS;
      boolean uneven = inSteps || flags.contains(Flag.DIPS_BEFORE_PEAK);
      return outcome == Outcome.SEVERED || inSteps
          ? force.measured().map(measured -> new CutResult(measured.value(), uneven))
          : Optional.empty();
    }
  }

  /**
   * One cut with its place.
   *
   * @param force cut-through force
   * @param placeMm distance from the heel, mm, if noted
   * @param uneven whether the force dipped before the peak or the filament parted in steps
   */
  public record PlacedCut(Force force, OptionalDouble placeMm, boolean uneven) {}

  public StageEvidence {
    cuts = List.copyOf(cuts);
    inspections = List.copyOf(inspections);
    steps = List.copyOf(steps);
  }

  /**
   * Evidence of {@code stage}; cuts set aside and cuts without a force are left out.
   *
   * @param results results by the cut's key in the store
   */
  public static StageEvidence of(SessionLog log, Stage stage, Map<Long, CutResult> results) {
    List<PlacedCut> cuts = new ArrayList<>();
    for (CutPlacement placement : log.countingPlacements(stage)) {
      Optional.ofNullable(results.get(placement.cut()))
          .ifPresent(r -> cuts.add(new PlacedCut(r.force(), placement.placeMm(), r.uneven())));
    }
    return new StageEvidence(stage, cuts, log.inspections(stage), log.steps(stage));
  }

  /** Evidence of every stage of {@code log}, in order. */
  public static List<StageEvidence> of(SessionLog log, Map<Long, CutResult> results) {
    return log.stages().stream().map(stage -> of(log, stage, results)).toList();
  }

  /** Its forces, with their places if every one is noted; empty without a cut. */
  public Optional<Readings> readings() {
    if (cuts.isEmpty()) {
      return Optional.empty();
    }
    Readings forces =
        Readings.ofGramForce(
            stage.name(), cuts.stream().mapToDouble(c -> c.force().gramForce()).toArray());
    double[] places = cuts.stream().flatMapToDouble(c -> c.placeMm().stream()).toArray();
    return Optional.of(places.length == cuts.size() ? forces.at(places) : forces);
  }

  /** Its forces if there are at least two. */
  public Optional<Readings> comparable() {
    return readings().filter(r -> r.count() >= 2);
  }
}
