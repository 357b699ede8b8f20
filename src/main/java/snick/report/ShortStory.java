package snick.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.phrase.Phrase;
import snick.phrase.Words;
import snick.report.plot.NotedInWords;
import snick.report.plot.ProgressionPlot;
import snick.report.plot.Shown;
import snick.store.record.Verification;
import snick.verdict.Coach;
import snick.verdict.burr.BurrEvidence;
import snick.verdict.burr.BurrVerdict;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.Change;
import snick.verdict.comparison.Comparison;
import snick.verdict.comparison.GroupFigures;
import snick.verdict.comparison.Progression;

/** What the work brought, for whoever reads nothing else: verdict first, then stage by stage. */
record ShortStory(SessionStory story, NotedInWords noted) {
  List<Block> blocks() {
    Optional<Progression> progression = story.progression();
    List<Block> blocks = new ArrayList<>();
    blocks.add(new Block.Verdict(progression.map(p -> headline(p.whole())).orElse(tooLittle())));
    blocks.add(Block.Points.of(points(progression)));
    if (story.stages().isEmpty()) {
      return blocks;
    }
    if (story.stages().stream().anyMatch(s -> s.readings().isPresent())) {
      blocks.add(
          new Block.Drawing(
              ProgressionPlot.of(story.session(), story.stages(), story.judge(), words()),
              words().say("report.stages_seen")));
    }
    blocks.add(stages(progression));
    return blocks;
  }

  private Words words() {
    return noted.words();
  }

  private List<String> points(Optional<Progression> progression) {
    List<String> points = new ArrayList<>();
    progression.ifPresent(
        p -> {
          points.add(whole(p.whole()));
          points.add(plateau(p.plateau()));
        });
    last().map(this::burr).ifPresent(points::add);
    story.lastCheck().filter(check -> !check.withinLimit()).map(this::off).ifPresent(points::add);
    if (story.session().closed().isEmpty()) {
      Phrase advice = new Coach(story.judge()).advise(story.stages(), story.evidence().nextPlace());
      points.add(words().say("report.next", "what", advice));
    }
    return points;
  }

  private Optional<StageEvidence> last() {
    return story.evidence().last().filter(ShortStory::anything);
  }

  private static boolean anything(StageEvidence stage) {
    return !stage.cuts().isEmpty() || !stage.inspections().isEmpty();
  }

  private String headline(Comparison c) {
    return words().say("report.brought_" + c.verdict().word(), "share", size(c));
  }

  private String whole(Comparison c) {
    boolean shown = c.verdict() == Change.LOWER || c.verdict() == Change.HIGHER;
    return words()
        .say(
            Phrase.of(shown ? "report.whole_shown" : "report.whole")
                .with("first", c.first().name())
                .with("before", both(c.first()))
                .with("second", c.second().name())
                .with("after", both(c.second())));
  }

  private static String both(GroupFigures figures) {
    return Shown.newtons(figures.meanGf()) + " (" + Shown.gf(figures.meanGf()) + ")";
  }

  /** How large the change is, in per cent of the force before where that is above zero. */
  private static String size(Comparison c) {
    double before = c.first().meanGf();
    return before > 0
        ? Shown.fixed(100 * Math.abs(c.differenceGf()) / before, 0) + "\u00a0%"
        : Shown.gf(Math.abs(c.differenceGf()));
  }

  private String plateau(Progression.Plateau plateau) {
    if (plateau instanceof Progression.Plateau.KeenerBefore lost) {
      return words().say("report.plateau_lost", "what", lost.reason().evidence());
    }
    if (plateau instanceof Progression.Plateau.Reached reached) {
      return words().say("report.plateau", "since", reached.since());
    }
    return words()
        .say(
            plateau instanceof Progression.Plateau.NoMargin
                ? "report.plateau_no_margin"
                : "report.plateau_not_shown");
  }

  private String tooLittle() {
    return words().say("report.too_little");
  }

  private String off(Verification check) {
    double share = check.shown().value().newtons() / check.known().value().newtons() - 1;
    return words().say("report.check_off", "percent", Shown.fixed(100 * share, 1));
  }

  private String burr(StageEvidence stage) {
    BurrVerdict verdict = weighed(stage);
    if (verdict.burr() == BurrVerdict.Burr.NOT_KNOWN) {
      return words().say(stage.inspections().isEmpty() ? "report.not_looked" : "report.not_known");
    }
    return words()
        .say(
            Phrase.of("report.burr")
                .with("verdict", words().named("burr", verdict.burr()))
                .with("signs", verdict.rule().evidence()));
  }

  private BurrVerdict weighed(StageEvidence stage) {
    return new BurrEvidence(story.judge()).weigh(stage);
  }

  private Block stages(Optional<Progression> progression) {
    return new Block.Grid(
        List.of(
            Block.Column.words(words().say("mend.stage")),
            Block.Column.words(words().say("report.done")),
            Block.Column.figures(words().say("report.force")),
            Block.Column.words(words().say("report.change")),
            Block.Column.words(words().say("report.burr_left"))),
        story.stages().stream().map(stage -> row(stage, progression)).toList());
  }

  private List<String> row(StageEvidence stage, Optional<Progression> progression) {
    String name = stage.stage().name();
    return List.of(
        name,
        noted.steps(stage.steps()),
        stage.readings().map(r -> newtonsAndGf(r.meanGf())).orElse("–"),
        progression.flatMap(p -> step(p, name)).map(this::change).orElse("–"),
        anything(stage) ? words().say("report.burr_" + weighed(stage).burr().word()) : "–");
  }

  static String newtonsAndGf(double gramForce) {
    return Shown.newtons(gramForce) + "\n" + Shown.gf(gramForce);
  }

  private static Optional<Progression.Step> step(Progression progression, String stage) {
    return progression.steps().stream()
        .filter(step -> step.comparison().second().name().equals(stage))
        .findFirst();
  }

  private String change(Progression.Step step) {
    return words().say("report.change_" + step.change().word(), "share", size(step.comparison()));
  }

  /** The part of the whole fall that came with a step, in per cent. */
  static String share(OptionalDouble share) {
    return Shown.fixed(100 * share.orElseThrow(), 0) + "\u00a0%";
  }
}
