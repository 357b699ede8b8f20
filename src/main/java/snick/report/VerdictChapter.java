package snick.report;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import snick.phrase.Phrase;
import snick.phrase.Words;
import snick.report.plot.Shown;
import snick.verdict.burr.BurrClue;
import snick.verdict.burr.BurrEvidence;
import snick.verdict.burr.BurrVerdict;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.Change;
import snick.verdict.comparison.Comparison;
import snick.verdict.comparison.Progression;
import snick.verdict.comparison.Reason;

/**
 * Every verdict with the figures behind it. A rule stands once, at the end, and so does a reason
 * that holds for several verdicts.
 */
final class VerdictChapter {
  private final SessionStory story;
  private final Words words;
  private final List<Block> blocks = new ArrayList<>();
  private final List<String> rules = new ArrayList<>();
  private final Set<Reason> told = new HashSet<>();

  VerdictChapter(SessionStory story, Words words) {
    this.story = story;
    this.words = words;
  }

  List<Block> blocks() {
    story.progression().ifPresent(this::steps);
    story.stages().stream()
        .filter(s -> !s.cuts().isEmpty() || !s.inspections().isEmpty())
        .forEach(this::burr);
    if (blocks.isEmpty()) {
      blocks.add(new Block.Paragraph(words.say("report.no_verdict")));
    } else {
      blocks.add(new Block.Heading(words.say("report.rules")));
      blocks.add(Block.Points.of(numberedRules()));
    }
    return blocks;
  }

  private void steps(Progression progression) {
    for (Progression.Step step : progression.steps()) {
      Comparison c = step.comparison();
      blocks.add(
          new Block.Heading(
              words.say(
                  Phrase.of("report.against")
                      .with("second", c.second().name())
                      .with("first", c.first().name())
                      .with("change", words.say("report.verdict_" + step.change().word())))));
      List<Block.Point> points = new ArrayList<>();
      c.reasons().stream().filter(told::add).forEach(reason -> point("", reason, points));
      c.second().scatterReason().ifPresent(reason -> point("", reason, points));
      if (progression.steps().size() > 1 && c.verdict() != Change.EQUIVALENT) {
        points.add(new Block.Point(together(step, progression.steps().size()), ""));
      }
      c.moreCuts()
          .told()
          .map(more -> words.say("report.more", "what", more))
          .ifPresent(more -> points.add(new Block.Point(more, "")));
      blocks.add(new Block.Points(points));
    }
    blocks.add(new Block.Heading(words.say("report.more_to_gain")));
    List<Block.Point> points = new ArrayList<>();
    point("", progression.plateau().reason(), points);
    blocks.add(new Block.Points(points));
  }

  private String together(Progression.Step step, int steps) {
    String together =
        words.say(
            Phrase.of("report.together")
                .with("n", steps)
                .with("p", p(step.holmP()))
                .with("change", words.say("report.verdict_" + step.change().word())));
    return step.shareOfGain().isPresent()
        ? together + " " + words.say("report.share", "share", ShortStory.share(step.shareOfGain()))
        : together;
  }

  private String p(double probability) {
    return probability < 1e-4 ? words.say("report.p_tiny") : Shown.fixed(probability, 4);
  }

  private void burr(StageEvidence stage) {
    BurrVerdict verdict = new BurrEvidence(story.judge()).weigh(stage);
    blocks.add(
        new Block.Heading(
            words.say(
                Phrase.of("report.burr_in")
                    .with("stage", stage.stage().name())
                    .with("verdict", words.say("report.burr_" + verdict.burr().word())))));
    List<Block.Point> points = new ArrayList<>();
    clues(verdict, BurrClue.Says.BURR, words.say("report.for_burr"), points);
    clues(verdict, BurrClue.Says.NO_BURR, words.say("report.against_burr"), points);
    point("", verdict.rule(), points);
    blocks.add(new Block.Points(points));
  }

  private void clues(
      BurrVerdict verdict, BurrClue.Says says, String lead, List<Block.Point> points) {
    verdict.saying(says).forEach(clue -> point(lead + " ", clue.reason(), points));
  }

  private void point(String lead, Reason reason, List<Block.Point> points) {
    String rule = words.say("report.rule_of", "rule", reason.rule(), "source", reason.source());
    if (!rules.contains(rule)) {
      rules.add(rule);
    }
    points.add(
        new Block.Point(
            words.say("report.sentence", "text", lead + words.say(reason.evidence())),
            words.say(
                "report.reason", "rule", rules.indexOf(rule) + 1, "what", reason.wouldChange())));
  }

  private List<String> numberedRules() {
    return IntStream.range(0, rules.size())
        .mapToObj(i -> words.say("report.rule", "n", i + 1, "rule", rules.get(i)))
        .toList();
  }
}
