package snick.report;

import java.util.ArrayList;
import java.util.List;
import snick.force.budget.Calibration;
import snick.force.budget.Contribution;
import snick.force.budget.Coverage;
import snick.quantity.Force;
import snick.store.Verification;

/** Method and uncertainty in plain words. */
record MethodChapter(SessionStory story) {
  List<Block> blocks() {
    List<Block> blocks = new ArrayList<>();
    blocks.add(
        new Block.Paragraph(
            "The edge is pressed on a taut filament until the filament parts. The force at that"
                + " instant is the cut-through force: the lower, the keener the edge at that spot."
                + " It is given in newtons (N), and in gram-force: 1 gf = 0.00980665 N exactly, the"
                + " weight of one gram at standard gravity."));
    blocks.add(
        new Block.Paragraph(
            "A load cell reads the force many times a second as counts of the converter; these raw"
                + " counts are stored for good and everything here is derived from them. The force"
                + " is the reading above the rest before the cut. As the amplifier's filter rounds"
                + " the peak off, the force at the break is estimated from the way the load rose and"
                + " fell; the largest sample is kept beside it."));
    blocks.add(
        new Block.Paragraph(
            "No measurement is exact. The uncertainty of each force combines every known source by"
                + " JCGM 100:2008 (GUM): masses and calibration curve as far as they are stated,"
                + " the zero, noise, and the estimate of the peak. The scatter from cut to cut is"
                + " mostly the edge and the hand; verdicts weigh differences against that scatter,"
                + " never against a single cut."));
    blocks.add(Block.Points.of(facts()));
    return blocks;
  }

  private List<String> facts() {
    List<String> facts = new ArrayList<>();
    if (story.calibrations().isEmpty()) {
      facts.add("Calibration: none; what was cut has no force.");
    }
    story.calibrations().forEach(c -> facts.add(calibration(c)));
    facts.add(check());
    facts.add(
        "Repeatability of the rig: "
            + story
                .judge()
                .rig()
                .map(r -> "SD " + Shown.gf(r.sdGf()) + " (" + r.study() + ").")
                .orElse("not given, so no verdict weighs it."));
    facts.add(
        "Margin below which a difference does not matter: "
            + (story.judge().marginGf().isPresent()
                ? Shown.newtons(story.judge().marginGf().getAsDouble())
                    + " = "
                    + Shown.gf(story.judge().marginGf().getAsDouble())
                    + ", "
                    + story.judge().marginFrom()
                    + "."
                : "none was set."));
    return facts;
  }

  private static String calibration(Calibration c) {
    double to = c.range().to().newtons();
    List<Contribution> parts = c.contributions(to / 2, 0);
    double u = Contribution.combined(parts);
    String expanded =
        u > 0
            ? Shown.fixed(
                    100
                        * u
                        * Coverage.factor(
                            Coverage.USUAL_PROBABILITY,
                            Contribution.effectiveDegreesOfFreedom(parts))
                        / (to / 2),
                    2)
                + " % of the force at half of its range (95 %), without the peak estimate"
            : "not stated";
    boolean typed = c.made().getEpochSecond() == 0;
    return "Calibration "
        + c.id()
        + (typed ? "" : ", made " + Day.utc(c.made()))
        + ", up to "
        + Shown.fixed(to, 3)
        + " N = "
        + Shown.gf(Force.ofNewtons(to).gramForce())
        + "; uncertainty "
        + expanded
        + c.validFor()
            .map(d -> "; valid until " + Day.utc(c.made().plus(d)))
            .orElse("; no period of validity was set")
        + ".";
  }

  private String check() {
    if (story.checks().isEmpty()) {
      return "Check with a known mass: none is recorded for this rig before or during the session.";
    }
    Verification last = story.checks().get(story.checks().size() - 1);
    return "Last check with a known mass: "
        + Day.utc(last.at())
        + ", known "
        + Shown.newtons(last.known())
        + ", shown "
        + Shown.newtons(last.shown())
        + (last.withinLimit() ? ", within" : ", OUTSIDE")
        + " its limit of "
        + Shown.fixed(last.limit().newtons(), 4)
        + " N.";
  }
}
