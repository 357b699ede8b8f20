package snick.verdict.comparison;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.verdict.statistic.Holm;
import snick.verdict.statistic.Readings;

/**
 * All stages of one edge in order: which step changed the force, and whether there is more to gain.
 *
 * @param steps each stage against the one before
 * @param whole last stage against the first
 * @param plateau how the last stages stand to one another
 */
public record Progression(List<Step> steps, Comparison whole, Plateau plateau) {
  public Progression {
    steps = List.copyOf(steps);
  }

  /**
   * One step.
   *
   * @param comparison later stage against the earlier; its own verdict knows of no other step
   * @param holmP its deciding p adjusted for the number of steps
   * @param change verdict with that p
   * @param shareOfGain part of the whole fall that came with this step, at most 1; empty unless
   *     both it and the whole are lower
   */
  public record Step(
      Comparison comparison, double holmP, Change change, OptionalDouble shareOfGain) {}

  /** Whether further work has a measurable benefit with this rig. */
  public sealed interface Plateau {
    /**
     * The stages from {@code since} to the last are equivalent within the margin, each against the
     * last.
     *
     * @param since name of the first stage on the plateau
     * @param stages how many stages stand on it, 2 or more
     */
    record Reached(String since, int stages, Reason reason) implements Plateau {}

    /** The edge is shown to have been keener at the stage {@code best} than it is at the last. */
    record KeenerBefore(String best, Reason reason) implements Plateau {}

    /** The last step is not shown to be without benefit. */
    record NotShown(Reason reason) implements Plateau {}

    /** Neither a margin nor the rig's repeatability is known. */
    record NoMargin(Reason reason) implements Plateau {}

    /** Why. */
    Reason reason();
  }

  /**
   * Progression over {@code stages}. Without a margin of its own the judge's rig gives one: the
   * smallest difference that as many cuts as were planned, else as the smallest stage has, would
   * show.
   *
   * @throws NotAccepted with fewer than 2 stages, or fewer than 2 cuts in one
   */
  public static Progression of(List<Readings> stages, Judge judge) {
    requireTwo(stages);
    Judge plain = judge.withMargin(OptionalDouble.empty());
    Comparison whole = plain.compare(stages.get(0), stages.get(stages.size() - 1));
    List<Comparison> comparisons = new ArrayList<>();
    for (int i = 1; i < stages.size(); i++) {
      comparisons.add(judge.compare(stages.get(i - 1), stages.get(i)));
    }
    return new Progression(steps(comparisons, whole), whole, plateau(stages, judge));
  }

  private static void requireTwo(List<Readings> stages) {
    if (stages.size() < 2) {
      throw new NotAccepted("refused.too_few_stages", "n", stages.size());
    }
    stages.forEach(stage -> stage.atLeast(2));
  }

  private static List<Step> steps(List<Comparison> comparisons, Comparison whole) {
    double[] holm =
        Holm.adjusted(comparisons.stream().mapToDouble(c -> c.decision().p()).toArray());
    List<Step> steps = new ArrayList<>();
    for (int i = 0; i < holm.length; i++) {
      Comparison c = comparisons.get(i);
      steps.add(new Step(c, holm[i], adjusted(c, holm[i]), share(c, whole)));
    }
    return steps;
  }

  private static Change adjusted(Comparison c, double holmP) {
    boolean lost =
        (c.verdict() == Change.LOWER || c.verdict() == Change.HIGHER)
            && !(holmP < c.decision().level());
    return lost ? Change.NO_DIFFERENCE_SHOWN : c.verdict();
  }

  private static OptionalDouble share(Comparison c, Comparison whole) {
    boolean gained = whole.verdict() == Change.LOWER && c.verdict() == Change.LOWER;
    return gained && c.differenceGf() >= whole.differenceGf()
        ? OptionalDouble.of(c.differenceGf() / whole.differenceGf())
        : OptionalDouble.empty();
  }

  /**
   * How the last of {@code stages} stand to one another.
   *
   * @throws NotAccepted with fewer than 2 stages, or fewer than 2 cuts in one
   */
  public static Plateau plateau(List<Readings> stages, Judge judge) {
    requireTwo(stages);
    return keenerBefore(stages, judge).orElseGet(() -> ended(stages, judge));
  }

  private static Optional<Plateau> keenerBefore(List<Readings> stages, Judge judge) {
    Readings last = stages.get(stages.size() - 1);
    return stages.subList(0, stages.size() - 1).stream()
        .filter(stage -> judge.verdict(stage, last) == Change.HIGHER)
        .min(Comparator.comparingDouble(Readings::meanGf))
        .map(best -> new Plateau.KeenerBefore(best.name(), keenerBefore(best, last)));
  }

  private static Reason keenerBefore(Readings best, Readings last) {
    return new Reason(
        Phrase.of("reason.keener_before")
            .with("best", best.name())
            .with("mean", Wording.gf(best.meanGf()))
            .with("last", last.name())
            .with("now", Wording.gf(last.meanGf())),
        Phrase.of("rule.keener_before"),
        Phrase.of("unless.keener_before"),
        Reason.COMMON_PRACTICE);
  }

  private static Plateau ended(List<Readings> stages, Judge judge) {
    Optional<Double> margin = margin(stages, judge);
    if (margin.isEmpty()) {
      return new Plateau.NoMargin(
          new Reason(
              Phrase.of("reason.no_margin"),
              Phrase.of("rule.no_margin"),
              Phrase.of("unless.no_margin"),
              Reason.COMMON_PRACTICE));
    }
    int last = stages.size() - 1;
    int since = last;
    Judge within = judge.withMargin(OptionalDouble.of(margin.get()));
    while (since > 0
        && within.verdict(stages.get(since - 1), stages.get(last)) == Change.EQUIVALENT) {
      since--;
    }
    return since < last
        ? reached(stages, since, margin.get())
        : notShown(within.compare(stages.get(last - 1), stages.get(last)), margin.get());
  }

  private static Optional<Double> margin(List<Readings> stages, Judge judge) {
    if (judge.marginGf().isPresent()) {
      return Optional.of(judge.marginGf().getAsDouble());
    }
    int fewest = stages.stream().mapToInt(Readings::count).min().orElseThrow();
    int cuts = judge.planned().orElse(fewest);
    return judge.rig().map(rig -> rig.smallestShownDifferenceGf(cuts));
  }

  private static Plateau reached(List<Readings> stages, int since, double marginGf) {
    String name = stages.get(since).name();
    int count = stages.size() - since;
    return new Plateau.Reached(
        name,
        count,
        new Reason(
            Phrase.of("reason.plateau", "n", count, "since", name, "margin", Wording.gf(marginGf)),
            Phrase.of("rule.plateau"),
            Phrase.of("unless.plateau"),
            Phrase.of("source.plateau")));
  }

  private static Plateau notShown(Comparison lastStep, double marginGf) {
    return new Plateau.NotShown(
        new Reason(
            Phrase.of("reason.no_plateau")
                .with("by", Wording.signedGf(lastStep.differenceGf()))
                .with("change", Phrase.named("report.is", lastStep.verdict()))
                .with("margin", Wording.gf(marginGf)),
            Phrase.of("rule.no_plateau"),
            Phrase.of("unless.no_plateau"),
            Phrase.of("source.equivalence")));
  }
}
