package snick.report;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import snick.force.budget.Calibration;
import snick.force.budget.CombinedUncertainty;
import snick.phrase.Phrase;
import snick.phrase.Words;
import snick.quantity.Force;
import snick.report.plot.Day;
import snick.report.plot.Shown;
import snick.store.record.Verification;

/** Method and uncertainty in plain words. */
record MethodChapter(SessionStory story, Words words) {
  List<Block> blocks() {
    List<Block> blocks = new ArrayList<>();
    blocks.add(new Block.Paragraph(words.say("report.method_force")));
    blocks.add(new Block.Paragraph(words.say("report.method_counts")));
    blocks.add(new Block.Paragraph(words.say("report.method_uncertainty")));
    blocks.add(Block.Points.of(facts()));
    return blocks;
  }

  private List<String> facts() {
    List<String> facts = new ArrayList<>();
    if (story.calibrations().isEmpty()) {
      facts.add(words.say("report.no_calibration"));
    }
    story.calibrations().forEach(c -> facts.add(calibration(c)));
    facts.add(check());
    facts.add(
        story
            .judge()
            .rig()
            .map(r -> words.say("report.rig", "sd", Shown.gf(r.sdGf()), "study", r.study()))
            .orElse(words.say("report.no_rig")));
    facts.add(margin());
    return facts;
  }

  private String margin() {
    OptionalDouble gf = story.judge().marginGf();
    return gf.isEmpty()
        ? words.say("report.no_margin")
        : words.say(
            Phrase.of("report.margin")
                .with("newtons", Shown.newtons(gf.getAsDouble()))
                .with("gf", Shown.gf(gf.getAsDouble()))
                .with("from", story.judge().marginFrom().orElseThrow()));
  }

  private String calibration(Calibration c) {
    Force to = c.range().to();
    if (typed(c)) {
      return words.say(
          "report.calibration_typed", "id", c.id(), "uncertainty", uncertainty(words, c));
    }
    return words.say(
        Phrase.of("report.calibration")
            .with("id", c.id())
            .with("made", words.say("report.made", "day", Day.utc(c.made())))
            .with("newtons", Shown.fixed(to.newtons(), 3))
            .with("gf", Shown.gf(to.gramForce()))
            .with("uncertainty", uncertainty(words, c))
            .with(
                "valid",
                c.validFor()
                    .map(d -> words.say("report.valid", "day", Day.utc(c.made().plus(d))))
                    .orElse(words.say("report.no_validity"))));
  }

  /** A number that somebody typed in has no date. */
  static boolean typed(Calibration c) {
    return c.made().getEpochSecond() == 0;
  }

  /** How good forces are at half of the calibrated range. */
  static String uncertainty(Words words, Calibration c) {
    double newtons = c.range().to().newtons() / 2;
    CombinedUncertainty at = new CombinedUncertainty(newtons, c.contributions(newtons, 0));
    return at.standardNewtons() > 0
        ? words.say(
            Phrase.of(typed(c) ? "report.uncertainty_typed" : "report.uncertainty")
                .with("share", Shown.fixed(100 * at.expandedNewtons() / newtons, 2)))
        : words.say("report.no_uncertainty");
  }

  private String check() {
    if (story.checks().isEmpty()) {
      return words.say("report.no_check");
    }
    Verification last = story.checks().get(story.checks().size() - 1);
    return words.say(
        Phrase.of(last.withinLimit() ? "report.check_within" : "report.check_out")
            .with("day", Day.utc(last.at()))
            .with("known", Shown.newtons(last.known()))
            .with("shown", Shown.newtons(last.shown()))
            .with("limit", Shown.fixed(last.limit().newtons(), 4)));
  }
}
