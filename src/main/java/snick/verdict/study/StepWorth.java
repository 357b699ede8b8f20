package snick.verdict.study;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import snick.phrase.Phrase;
import snick.verdict.comparison.GroupFigures;
import snick.verdict.statistic.Readings;

/**
 * What one kind of sharpening was worth so far.
 *
 * @param step what was done, as {@link Occasion#step} calls it
 * @param change change of the mean force, second stage less first, over all occasions
 */
public record StepWorth(Phrase step, GroupFigures change) {
  /**
   * One time that it was done.
   *
   * @param step what was done
   * @param changeGf mean force after it less mean force before it, gf
   */
  public record Occasion(Phrase step, double changeGf) {}

  /** What each step was worth, the one that lowered the force most first. */
  public static List<StepWorth> of(List<Occasion> occasions) {
    Map<Phrase, List<Double>> changes = new LinkedHashMap<>();
    for (Occasion occasion : occasions) {
      changes.computeIfAbsent(occasion.step(), step -> new ArrayList<>()).add(occasion.changeGf());
    }
    return changes.entrySet().stream()
        .map(entry -> worth(entry.getKey(), entry.getValue()))
        .sorted(Comparator.comparingDouble(worth -> worth.change().meanGf()))
        .toList();
  }

  private static StepWorth worth(Phrase step, List<Double> changes) {
    List<Double> newest =
        changes.subList(Math.max(0, changes.size() - Readings.LIMIT), changes.size());
    double[] gramForce = newest.stream().mapToDouble(Double::doubleValue).toArray();
    return new StepWorth(
        step, GroupFigures.of(Readings.ofGramForce("step", gramForce), Optional.empty()));
  }
}
