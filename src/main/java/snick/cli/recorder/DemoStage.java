package snick.cli.recorder;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.apache.commons.statistics.descriptive.Mean;
import org.apache.commons.statistics.descriptive.StandardDeviation;
import snick.cli.terminal.Numbers;
import snick.cli.terminal.Table;
import snick.daemon.AnnouncedCut;
import snick.quantity.MeasuredForce;
import snick.virtualrig.bench.TrueCut;

/** What was true and what was measured in one stage of the demo. */
final class DemoStage {
  private final String name;
  private final List<TrueCut> truths = new ArrayList<>();
  private final List<AnnouncedCut> measured = new ArrayList<>();

  DemoStage(String name) {
    this.name = name;
  }

  void add(TrueCut truth, AnnouncedCut cut) {
    truths.add(truth);
    measured.add(cut);
  }

  /** The last cut in one line: measured, true, and what they differ by. */
  String lastLine() {
    TrueCut truth = truths.get(truths.size() - 1);
    AnnouncedCut cut = measured.get(measured.size() - 1);
    double trueGramForce = truth.breakForce().gramForce();
    return String.format(
        Locale.ROOT,
        "  #%-3d %3.0f mm  %-15s %18s  true %6.1f gf  %s",
        cut.id(),
        truth.placeMillimetres().orElse(0),
        cut.cut().outcome().plain(),
        cut.force().measured().map(Numbers::gramForce).orElse("no force"),
        trueGramForce,
        cut.force()
            .measured()
            .map(f -> "(" + signed(f.value().gramForce() - trueGramForce) + ")")
            .orElse(""));
  }

  /** With its sign and one digit; what rounds to zero is no less than zero. */
  private static String signed(double gramForce) {
    return String.format(Locale.ROOT, "%+.1f", Math.rint(10 * gramForce) / 10 + 0.0);
  }

  /** All stages side by side, each with its change against the first. */
  static Table summary(List<DemoStage> stages) {
    Table table =
        new Table("STAGE", ">CUTS", ">MEAN gf", ">SD gf", ">TRUE MEAN gf", ">AGAINST FIRST");
    double first = stages.get(0).mean();
    for (DemoStage stage : stages) {
      table.row(
          stage.name,
          stage.measured.size(),
          Numbers.fixed(stage.mean(), 1),
          Numbers.fixed(StandardDeviation.of(stage.gramForces()).getAsDouble(), 1),
          Numbers.fixed(stage.trueMean(), 1),
          stage == stages.get(0)
              ? ""
              : String.format(Locale.ROOT, "%+.0f %%", 100 * (stage.mean() - first) / first));
    }
    return table;
  }

  private double mean() {
    return Mean.of(gramForces()).getAsDouble();
  }

  private double trueMean() {
    return truths.stream().mapToDouble(t -> t.breakForce().gramForce()).average().orElseThrow();
  }

  private double[] gramForces() {
    return measured.stream()
        .flatMap(cut -> cut.force().measured().stream())
        .map(MeasuredForce::value)
        .mapToDouble(force -> force.gramForce())
        .toArray();
  }
}
