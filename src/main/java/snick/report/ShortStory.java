package snick.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snick.verdict.Coach;
import snick.verdict.burr.BurrEvidence;
import snick.verdict.burr.BurrVerdict;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.Change;
import snick.verdict.comparison.Comparison;
import snick.verdict.comparison.GroupFigures;
import snick.verdict.comparison.Progression;

/** What became of the edge, in a few sentences. */
record ShortStory(SessionStory story) {
  List<Block> blocks() {
    List<String> points = new ArrayList<>();
    story
        .progression()
        .ifPresentOrElse(
            p -> {
              points.add(whole(p.whole()));
              points.add(plateau(p.plateau()));
            },
            () -> points.add(tooLittle()));
    last().map(this::burr).ifPresent(points::add);
    points.add(
        "What to do next: "
            + new Coach(story.judge()).advise(story.stages(), story.evidence().nextPlace())
            + ".");
    return List.of(Block.Points.of(points));
  }

  private Optional<StageEvidence> last() {
    return story.evidence().last().filter(s -> !s.cuts().isEmpty() || !s.inspections().isEmpty());
  }

  private static String whole(Comparison c) {
    String share =
        c.first().meanGf() > 0
            ? " (" + Shown.signedPercent(c.differenceGf() / c.first().meanGf()) + ")"
            : "";
    return "From '"
        + c.first().name()
        + "' to '"
        + c.second().name()
        + "' the force to cut the filament went from "
        + both(c.first())
        + " to "
        + both(c.second())
        + share
        + ": "
        + meaning(c.verdict())
        + ".";
  }

  private static String both(GroupFigures figures) {
    return Shown.newtons(figures.meanGf()) + " = " + Shown.gf(figures.meanGf());
  }

  /** A verdict in a few plain words. */
  static String meaning(Change change) {
    return switch (change) {
      case LOWER -> "lower, the edge became keener, more than scatter explains";
      case HIGHER -> "higher, the edge became less keen, more than scatter explains";
      case NO_DIFFERENCE_SHOWN -> "no difference shown; these cuts cannot tell one from scatter";
      case EQUIVALENT -> "equivalent, the difference is smaller than the margin";
    };
  }

  private static String plateau(Progression.Plateau plateau) {
    if (plateau instanceof Progression.Plateau.Reached reached) {
      return "Plateau reached: no measurable gain since '" + reached.since() + "'.";
    }
    return plateau instanceof Progression.Plateau.NoMargin
        ? "Whether more work would still help was not judged: neither a margin nor the rig's"
            + " repeatability was given."
        : "No plateau shown: more work may still help.";
  }

  private String tooLittle() {
    return "There is nothing to compare yet: two stages with two cuts or more, each with a force,"
        + " are needed; there "
        + (story.comparable().size() == 1 ? "is 1." : "is none.");
  }

  private String burr(StageEvidence stage) {
    BurrVerdict verdict = new BurrEvidence(story.judge()).weigh(stage);
    return "Burr left in '"
        + stage.stage().name()
        + "': "
        + Shown.plain(verdict.burr().word())
        + "; "
        + verdict.rule().evidence()
        + ".";
  }
}
