package snick.verdict.burr;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import snick.journal.EdgeDirection;
import snick.journal.Inspection;
import snick.journal.Method;
import snick.journal.Pressure;
import snick.journal.SharpeningStep;
import snick.verdict.burr.CheckTrust.Outcome;
import snick.verdict.comparison.Change;
import snick.verdict.comparison.Judge;
import snick.verdict.statistic.Readings;

/**
 * A stage as one method saw it, and what tells whether the method was right.
 *
 * @param method the method
 * @param stage the stage
 * @param next the stage after it, if there is one
 */
record SaidNone(Method method, StageEvidence stage, Optional<StageEvidence> next) {
  /** What became of its none; empty if it did not look or said anything else. */
  Optional<Outcome> outcome(Judge judge) {
    List<Inspection> looks =
        stage.inspections().stream().filter(i -> i.look().method() == method).toList();
    if (looks.isEmpty() || !looks.stream().allMatch(i -> i.finding().saysNone())) {
      return Optional.empty();
    }
    Outcome deburred = afterDeburring(judge);
    if (looks.stream().anyMatch(i -> later(i).anyMatch(l -> l.finding().pointsToBurr()))) {
      return Optional.of(Outcome.MISSED);
    }
    boolean agreed = looks.stream().allMatch(i -> later(i).anyMatch(l -> agrees(l, i)));
    boolean told = deburred == Outcome.MISSED || deburred == Outcome.RIGHT;
    return Optional.of(agreed && !told ? Outcome.RIGHT : deburred);
  }

  /** Later looks by other methods at a place that {@code look} saw. */
  private Stream<Inspection> later(Inspection look) {
    List<Inspection> all = stage.inspections();
    return all.subList(all.indexOf(look) + 1, all.size()).stream()
        .filter(l -> l.look().method() != method)
        .filter(l -> l.side().covers(look.side()) || look.side().covers(l.side()))
        .filter(
            l -> l.place().isEmpty() || look.place().isEmpty() || l.place().equals(look.place()));
  }

  private static boolean agrees(Inspection later, Inspection look) {
    return later.finding().saysNone()
        && later.side().covers(look.side())
        && (later.place().isEmpty() || later.place().equals(look.place()));
  }

  private Outcome afterDeburring(Judge judge) {
    Optional<Readings> before = stage.comparable();
    Optional<Readings> after = next.filter(SaidNone::deburred).flatMap(StageEvidence::comparable);
    if (before.isEmpty() || after.isEmpty()) {
      return Outcome.NOT_JUDGED;
    }
    boolean fell = judge.verdict(before.get(), after.get()) == Change.LOWER;
    if (noFiner(next.get().steps(), stage.steps())) {
      return fell ? Outcome.MISSED : Outcome.RIGHT;
    }
    return fell ? Outcome.UNCLEAR : Outcome.NOT_JUDGED;
  }

  private static boolean deburred(StageEvidence stage) {
    return !stage.steps().isEmpty() && stage.steps().stream().allMatch(SaidNone::deburrs);
  }

  private static boolean deburrs(SharpeningStep step) {
    boolean trailing = step.direction().filter(d -> d == EdgeDirection.EDGE_TRAILING).isPresent();
    boolean light =
        step.pressure().filter(p -> p == Pressure.LIGHT || p == Pressure.VERY_LIGHT).isPresent();
    return trailing || light;
  }

  /** Whether no step has a finer grain than some step before: both sides by grit or both by µm. */
  private static boolean noFiner(List<SharpeningStep> steps, List<SharpeningStep> before) {
    return noFiner(
            steps,
            before,
            s -> s.grain().grit().isPresent() ? s.grain().grit().getAsInt() : Double.NaN)
        || noFiner(steps, before, s -> -s.grain().micron().orElse(Double.NaN));
  }

  private static boolean noFiner(
      List<SharpeningStep> steps,
      List<SharpeningStep> before,
      ToDoubleFunction<SharpeningStep> fineness) {
    OptionalDouble finest =
        before.stream().mapToDouble(fineness).filter(f -> !Double.isNaN(f)).max();
    return finest.isPresent()
        && steps.stream().allMatch(s -> fineness.applyAsDouble(s) <= finest.getAsDouble());
  }
}
