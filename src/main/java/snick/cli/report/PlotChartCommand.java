package snick.cli.report;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import snick.cli.journal.ReferenceEdge;
import snick.cli.terminal.Refusal;
import snick.force.reading.RigSetting;
import snick.phrase.Words;
import snick.report.plot.ControlCharts;
import snick.report.plot.ControlPlot;
import snick.report.plot.Picture;
import snick.store.StoreReader;
import snick.store.record.Rig;
import snick.store.record.Verification;
import snick.verdict.statistic.Readings;
import snick.verdict.study.ReferenceChart;

/** Draws a control chart. */
@Command(
    name = "chart",
    description = {
      "Draw a control chart: checks of a rig with known mass, or with --blade cuts of a reference "
          + "edge after its baseline."
    },
    footer = {
      "  snick plot chart -o checks.svg",
      "  snick plot chart --blade reference -o reference.png"
    })
final class PlotChartCommand extends Drawing {
  @Option(
      names = "--rig",
      paramLabel = "ID",
      description = "The rig whose checks are drawn, if the store has several.")
  private Optional<String> rig = Optional.empty();

  @Option(
      names = "--blade",
      paramLabel = "LABEL",
      description = "Draw the counting cuts of this reference edge instead.")
  private Optional<String> blade = Optional.empty();

  @Option(names = "--lot", paramLabel = "LOT", description = "Only its cuts with this lot.")
  private Optional<String> lot = Optional.empty();

  @Option(
      names = "--baseline",
      paramLabel = "N",
      defaultValue = "" + ReferenceChart.LEAST,
      description = "First cuts of the edge that set the limits (default: ${DEFAULT-VALUE}).")
  private int baseline;

  @Override
  Picture picture(StoreReader store) {
    return blade.map(label -> referenceEdge(store, label)).orElseGet(() -> checks(store));
  }

  private Picture checks(StoreReader store) {
    String device = rig.orElseGet(() -> onlyRig(store));
    List<Verification> checks = store.verifications(device);
    if (checks.size() < ControlCharts.FEWEST) {
      throw Refusal.badInput(
          "rig %s has %s %s with a mass; limits need %s or more:"
              + " snick verify PORT --mass 100g:M1",
          device, checks.size(), checks.size() == 1 ? "check" : "checks", ControlCharts.FEWEST);
    }
    return ControlCharts.of(checks).picture(Words.english());
  }

  private static String onlyRig(StoreReader store) {
    List<String> rigs =
        Stream.concat(
                store.rigs().stream().map(Rig::deviceId),
                store.calibrations().stream()
                    .flatMap(c -> c.calibration().boundTo().stream())
                    .map(RigSetting::deviceId))
            .distinct()
            .filter(id -> !store.verifications(id).isEmpty())
            .toList();
    if (rigs.isEmpty()) {
      throw Refusal.badInput("no rig was checked with a mass yet; see: snick verify --help");
    }
    if (rigs.size() > 1) {
      throw Refusal.badInput(
          "%s rigs were checked: %s; choose one: --rig ID", rigs.size(), String.join(", ", rigs));
    }
    return rigs.get(0);
  }

  private Picture referenceEdge(StoreReader store, String label) {
    double[] gramForce = ReferenceEdge.of(store, label, lot).gramForceInOrder();
    if (baseline < ReferenceChart.LEAST || gramForce.length <= baseline) {
      throw Refusal.badInput(
          "blade '%s' has %s counting cuts with a force; a baseline of %s (%s or more) and"
              + " at least 1 cut after it are needed",
          label, gramForce.length, baseline, ReferenceChart.LEAST);
    }
    Readings before = Readings.ofGramForce("baseline", Arrays.copyOf(gramForce, baseline));
    Readings later =
        Readings.ofGramForce("later", Arrays.copyOfRange(gramForce, baseline, gramForce.length));
    return ControlPlot.ofReferenceEdge(
        label, ReferenceChart.of(before, later), later, Words.english());
  }
}
