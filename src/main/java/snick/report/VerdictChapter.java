package snick.report;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import snick.verdict.burr.BurrClue;
import snick.verdict.burr.BurrEvidence;
import snick.verdict.burr.BurrVerdict;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.Change;
import snick.verdict.comparison.Comparison;
import snick.verdict.comparison.GroupFigures;
import snick.verdict.comparison.MoreCuts;
import snick.verdict.comparison.Progression;
import snick.verdict.comparison.Reason;

/** Every verdict with the figures, rules and sources behind it. */
record VerdictChapter(SessionStory story) {
  private static final String NO_DIFFERENCE = Change.NO_DIFFERENCE_SHOWN.word();
  private static final Pattern MINUS = Pattern.compile("(?<= )-(?=\\d)");

  List<Block> blocks() {
    List<Block> blocks = new ArrayList<>();
    story.progression().ifPresent(p -> steps(blocks, p));
    story.stages().stream()
        .filter(s -> !s.cuts().isEmpty() || !s.inspections().isEmpty())
        .forEach(s -> burr(blocks, s));
    if (blocks.isEmpty()) {
      blocks.add(new Block.Paragraph("No verdict: nothing was cut or inspected yet."));
    }
    return blocks;
  }

  private void steps(List<Block> blocks, Progression progression) {
    for (Progression.Step step : progression.steps()) {
      Comparison c = step.comparison();
      blocks.add(
          new Block.Heading(
              "'"
                  + c.second().name()
                  + "' against '"
                  + c.first().name()
                  + "': "
                  + Shown.plain(step.change().word())));
      List<Block.Point> points = new ArrayList<>();
      c.reasons().forEach(reason -> points.add(point("", reason)));
      scatter(c.second(), points);
      if (progression.steps().size() > 1) {
        points.add(new Block.Point(together(step, progression.steps().size()), ""));
      }
      more(c.moreCuts(), points);
      blocks.add(new Block.Points(points));
    }
    blocks.add(new Block.Heading("Is there more to gain?"));
    blocks.add(new Block.Points(List.of(point("", progression.plateau().reason()))));
  }

  private static void scatter(GroupFigures figures, List<Block.Point> points) {
    figures.scatterReason().ifPresent(reason -> points.add(point("", reason)));
  }

  private static String together(Progression.Step step, int steps) {
    String share =
        step.shareOfGain().isPresent()
            ? " "
                + Shown.fixed(100 * step.shareOfGain().getAsDouble(), 0)
                + " % of the whole gain came with this step."
            : "";
    return steps
        + " steps are judged at once, so the p of this one is raised (Holm 1979) to "
        + p(step.holmP())
        + ": "
        + Shown.plain(step.change().word())
        + "."
        + share;
  }

  private static String p(double probability) {
    return probability < 1e-4 ? "below 0.0001" : Shown.fixed(probability, 4);
  }

  private static void more(MoreCuts more, List<Block.Point> points) {
    if (more instanceof MoreCuts.InSecond second) {
      points.add(
          new Block.Point(
              second.inSecond()
                  + " more cuts in this stage would settle it: "
                  + second.basis()
                  + ".",
              ""));
    } else if (more instanceof MoreCuts.PerGroup each) {
      points.add(
          new Block.Point(
              each.perGroup() + " cuts in each stage would settle it: " + each.basis() + ".", ""));
    } else if (more instanceof MoreCuts.NotWorthIt not) {
      points.add(new Block.Point("More cuts would not settle it, " + not.basis() + ".", ""));
    }
  }

  private void burr(List<Block> blocks, StageEvidence stage) {
    BurrVerdict verdict = new BurrEvidence(story.judge()).weigh(stage);
    blocks.add(
        new Block.Heading(
            "Burr in '" + stage.stage().name() + "': " + Shown.plain(verdict.burr().word())));
    List<Block.Point> points = new ArrayList<>();
    clues(verdict, BurrClue.Says.BURR, "For a burr: ", points);
    clues(verdict, BurrClue.Says.NO_BURR, "Against a burr: ", points);
    points.add(point("", verdict.rule()));
    points.add(new Block.Point("Next cheapest check: " + verdict.nextCheck() + ".", ""));
    blocks.add(new Block.Points(points));
  }

  private static void clues(
      BurrVerdict verdict, BurrClue.Says says, String lead, List<Block.Point> points) {
    verdict.saying(says).forEach(clue -> points.add(point(lead, clue.reason())));
  }

  private static Block.Point point(String lead, Reason reason) {
    return new Block.Point(
        lead + readable(reason.evidence()) + ".",
        "Rule: "
            + reason.rule()
            + " ("
            + reason.source()
            + "). What would change it: "
            + reason.wouldChange()
            + ".");
  }

  /** Words of verdicts and minus signs as people write them. */
  private static String readable(String evidence) {
    String plain = evidence.replace(NO_DIFFERENCE, Shown.plain(NO_DIFFERENCE));
    return MINUS.matcher(plain).replaceAll("−");
  }
}
