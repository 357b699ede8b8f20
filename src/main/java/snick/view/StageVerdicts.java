package snick.view;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import snick.verdict.Comparison;
import snick.verdict.GroupFigures;
import snick.verdict.Interval;
import snick.verdict.Judge;
import snick.verdict.MoreCuts;
import snick.verdict.Readings;
import snick.verdict.Reason;

/**
 * Figures of stages and how each compares with the one before. Keeps the latest comparisons, for
 * they take some milliseconds each. Used by one thread.
 */
final class StageVerdicts {
  private static final int LEAST_CUTS = 2;
  private static final int KEPT = 128;

  private final Judge judge = Judge.plain();
  private final Map<List<StageCuts>, Map<String, Object>> known =
      new LinkedHashMap<>(16, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(
            Map.Entry<List<StageCuts>, Map<String, Object>> oldest) {
          return size() > KEPT;
        }
      };

  /** Members {@code figures} and {@code verdict} of a stage, as far as there are cuts enough. */
  Map<String, Object> of(Optional<StageCuts> before, StageCuts now) {
    return Json.object(
        "figures",
        readings(now, 1).map(r -> figures(GroupFigures.of(r, Optional.empty()))),
        "verdict",
        before.flatMap(b -> compared(b, now)));
  }

  private Optional<Map<String, Object>> compared(StageCuts before, StageCuts now) {
    return readings(before, LEAST_CUTS)
        .flatMap(
            first ->
                readings(now, LEAST_CUTS)
                    .map(
                        second ->
                            known.computeIfAbsent(
                                List.of(before, now),
                                pair -> verdict(judge.compare(first, second)))));
  }

  private static Optional<Readings> readings(StageCuts cuts, int least) {
    return cuts.gramForce().size() < least
        ? Optional.empty()
        : Optional.of(
            Readings.ofGramForce(
                cuts.stage(),
                cuts.gramForce().stream().mapToDouble(Double::doubleValue).toArray()));
  }

  private static Map<String, Object> figures(GroupFigures figures) {
    return Json.object(
        "n", figures.n(),
        "mean_gf", figures.meanGf(),
        "sd_gf", figures.sdGf(),
        "ci95_gf", figures.ci95Gf().map(StageVerdicts::ends));
  }

  private static List<Double> ends(Interval interval) {
    return List.of(interval.low(), interval.high());
  }

  private static Map<String, Object> verdict(Comparison comparison) {
    return Json.object(
        "change", comparison.verdict().word(),
        "difference_gf", comparison.differenceGf(),
        "p", comparison.decisiveP(),
        "more_cuts", more(comparison.moreCuts()),
        "reasons", comparison.reasons().stream().map(Reason::text).toList());
  }

  private static Optional<String> more(MoreCuts more) {
    if (more instanceof MoreCuts.InSecond second) {
      return Optional.of(second.inSecond() + " more cuts in this stage: " + second.basis());
    }
    if (more instanceof MoreCuts.PerGroup per) {
      return Optional.of(per.perGroup() + " cuts in each stage: " + per.basis());
    }
    return more instanceof MoreCuts.NotWorthIt not ? Optional.of(not.basis()) : Optional.empty();
  }
}
