package snick.verdict.burr;

import static snick.verdict.burr.BurrClue.Kind.DIPS;
import static snick.verdict.burr.BurrClue.Kind.FIRST_CUT;
import static snick.verdict.burr.BurrClue.Kind.SCATTER;
import static snick.verdict.burr.BurrInspections.clue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.statistics.distribution.BinomialDistribution;
import org.apache.commons.statistics.inference.TTest;
import snick.phrase.Phrase;
import snick.verdict.burr.BurrClue.Says;
import snick.verdict.burr.BurrVerdict.Burr;
import snick.verdict.burr.StageEvidence.PlacedCut;
import snick.verdict.comparison.Comparison;
import snick.verdict.comparison.GroupFigures;
import snick.verdict.comparison.Judge;
import snick.verdict.comparison.Reason;
import snick.verdict.comparison.ScatterAgainstRig;
import snick.verdict.comparison.Wording;

/**
 * Weighs what is known of a stage for a residual burr. Common practice, no source, but for the
 * tests inside each clue.
 *
 * <p>Rule: {@code likely} if a burr was seen or felt, or if two kinds of evidence or more point to
 * one and not two ways of looking found both sides clean; {@code not indicated} if none does and at
 * least one speaks against it; {@code not known} if nothing speaks at all; {@code possible}
 * otherwise. That a step lowered the force is no evidence: it is what every step that succeeds
 * does.
 *
 * @param judge the rig
 */
public record BurrEvidence(Judge judge) {
  private static final double SAME_SPOT_MM = 1;
  private static final double USUAL_SHARE_UNEVEN = 0.10;
  private static final int CUTS_FOR_SCATTER = 4;

  /** Weighs {@code stage}. */
  public BurrVerdict weigh(StageEvidence stage) {
    BurrInspections inspections = new BurrInspections(stage.inspections());
    List<BurrClue> clues = new ArrayList<>(inspections.clues());
    clues.add(scatter(stage));
    clues.add(firstCut(stage));
    clues.add(dips(stage));
    return verdict(clues, inspections);
  }

  private static BurrVerdict verdict(List<BurrClue> clues, BurrInspections inspections) {
    Phrase nextCheck = inspections.nextCheck();
    List<BurrClue> pointing = clues.stream().filter(c -> c.says() == Says.BURR).toList();
    boolean seen = pointing.stream().anyMatch(c -> c.kind() == BurrClue.Kind.INSPECTION);
    boolean against = clues.stream().anyMatch(c -> c.says() == Says.NO_BURR);
    Burr burr = Burr.POSSIBLE;
    if (seen || (pointing.size() >= 2 && !inspections.cleanTwice())) {
      burr = Burr.LIKELY;
    } else if (pointing.isEmpty() && against) {
      burr = Burr.NOT_INDICATED;
    } else if (pointing.isEmpty()) {
      burr = Burr.NOT_KNOWN;
    }
    Reason rule =
        new Reason(
            evidence(pointing, clues), Phrase.of("rule.burr"), nextCheck, Reason.COMMON_PRACTICE);
    return new BurrVerdict(burr, clues, rule, nextCheck);
  }

  private static Phrase evidence(List<BurrClue> pointing, List<BurrClue> clues) {
    int of = clues.size();
    long tried = clues.stream().filter(c -> c.says() != Says.NOTHING).count();
    List<Phrase> kinds = pointing.stream().map(c -> Phrase.named("clue", c.kind())).toList();
    if (tried == 0) {
      return Phrase.of("reason.burr_untried", "of", of);
    }
    return pointing.isEmpty()
        ? Phrase.of("reason.burr_none", "tried", tried, "of", of)
        : Phrase.count("reason.burr", kinds.size(), "of", of, "kinds", kinds);
  }

  private BurrClue scatter(StageEvidence stage) {
    Optional<ScatterAgainstRig> scatter =
        stage.comparable().flatMap(r -> GroupFigures.of(r, judge.rig()).scatter());
    Phrase rule = Phrase.of("rule.clue_scatter", "n", CUTS_FOR_SCATTER);
    if (scatter.isEmpty()) {
      return clue(
          SCATTER,
          Says.NOTHING,
          Phrase.of("reason.clue_no_scatter"),
          rule,
          Phrase.of("unless.clue_no_scatter"));
    }
    boolean beyond = scatter.get().beyondRig();
    boolean enough = stage.cuts().size() >= CUTS_FOR_SCATTER;
    Says otherwise = enough ? Says.NO_BURR : Says.NOTHING;
    return clue(
        SCATTER,
        beyond ? Says.BURR : otherwise,
        Phrase.of(beyond ? "reason.clue_scatter_more" : "reason.clue_scatter")
            .with("ratio", Wording.number(scatter.get().ratio()))
            .with("p", Wording.p(scatter.get().p())),
        rule,
        Phrase.of("unless.clue_scatter"));
  }

  private static BurrClue firstCut(StageEvidence stage) {
    Phrase rule = Phrase.of("rule.clue_first_cut");
    List<double[]> pairs = pairs(stage.cuts());
    double[] first = pairs.stream().mapToDouble(p -> p[0]).toArray();
    double[] second = pairs.stream().mapToDouble(p -> p[1]).toArray();
    boolean spread = pairs.stream().mapToDouble(p -> p[1] - p[0]).distinct().limit(2).count() == 2;
    if (!spread) {
      return clue(
          FIRST_CUT,
          Says.NOTHING,
          Phrase.of("reason.clue_no_first_cut"),
          rule,
          Phrase.of("unless.clue_no_first_cut"));
    }
    double p = TTest.withDefaults().pairedTest(second, first).getPValue();
    return clue(
        FIRST_CUT,
        p < Comparison.SIGNIFICANCE ? Says.BURR : Says.NOTHING,
        Phrase.of(
                p < Comparison.SIGNIFICANCE
                    ? "reason.clue_first_cut_differs"
                    : "reason.clue_first_cut_alike")
            .with("n", pairs.size())
            .with("p", Wording.p(p)),
        rule,
        Phrase.of("unless.clue_first_cut"));
  }

  /** First and second force, gf, of each spot cut more than once. */
  private static List<double[]> pairs(List<PlacedCut> cuts) {
    List<PlacedCut> left =
        new ArrayList<>(cuts.stream().filter(c -> c.placeMm().isPresent()).toList());
    List<double[]> pairs = new ArrayList<>();
    while (!left.isEmpty()) {
      PlacedCut first = left.remove(0);
      List<PlacedCut> again = left.stream().filter(c -> sameSpot(first, c)).toList();
      if (!again.isEmpty()) {
        pairs.add(new double[] {first.force().gramForce(), again.get(0).force().gramForce()});
        left.removeAll(again);
      }
    }
    return pairs;
  }

  private static boolean sameSpot(PlacedCut a, PlacedCut b) {
    return Math.abs(a.placeMm().orElseThrow() - b.placeMm().orElseThrow()) < SAME_SPOT_MM;
  }

  private static BurrClue dips(StageEvidence stage) {
    int n = stage.cuts().size();
    int uneven = (int) stage.cuts().stream().filter(PlacedCut::uneven).count();
    double p =
        uneven == 0
            ? 1
            : BinomialDistribution.of(n, USUAL_SHARE_UNEVEN).survivalProbability(uneven - 1);
    return clue(
        DIPS,
        p < Comparison.SIGNIFICANCE ? Says.BURR : Says.NOTHING,
        Phrase.of("reason.clue_dips", "n", uneven, "cuts", Wording.cuts(n)),
        Phrase.of("rule.clue_dips"),
        Phrase.of("unless.clue_dips"));
  }
}
