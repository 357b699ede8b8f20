package snick.cli.verification;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import snick.cli.calibration.ChosenCalibration;
import snick.cli.option.ReadingCommand;
import snick.cli.terminal.JsonLine;
import snick.force.budget.Calibration;
import snick.force.reading.RigSetting;
import snick.json.Json;
import snick.report.plot.ControlCharts;
import snick.store.StoreReader;
import snick.store.record.Verification;

/** Shows the control chart of the check masses. */
@Command(
    name = "chart",
    description = "Show the check masses of a calibration over time; or draw them.",
    footer = {"  snick verify chart", "  snick verify chart --file chart.png"})
final class VerifyChartCommand extends ReadingCommand {

  @Option(
      names = "--calibration",
      paramLabel = "ID",
      defaultValue = "",
      description = "Which calibration (default: the newest).")
  private String id;

  @Option(names = "--file", paramLabel = "FILE", description = "Draw it there, .svg or .png.")
  private Optional<Path> file;

  @Option(names = "--json", description = "One JSON object a line for each check.")
  private boolean json;

  @Override
  protected void read(StoreReader store) {
    Calibration calibration = ChosenCalibration.of(store, id).calibration();
    List<Verification> checks =
        calibration
            .boundTo()
            .map(rig -> of(calibration.id(), rig.deviceId(), store))
            .orElse(List.of());
    file.ifPresent(path -> ControlChartText.write(checks, path));
    print(calibration, checks);
  }

  /** Verifications of one calibration, oldest first. */
  static List<Verification> of(String calibrationId, String deviceId, StoreReader store) {
    return store.verifications(deviceId).stream()
        .filter(check -> check.calibrationId().equals(calibrationId))
        .toList();
  }

  private void print(Calibration calibration, List<Verification> checks) {
    PrintWriter out = out();
    if (json) {
      checks.forEach(check -> JsonLine.print(out, object(check)));
    } else {
      out.println(
          "Check masses of "
              + calibration.id()
              + calibration.boundTo().map(RigSetting::deviceId).map(d -> ", rig " + d).orElse(""));
      ControlChartText.print(out, checks);
    }
  }

  private static Map<String, Object> object(Verification check) {
    return Json.object(
        "at", check.at().toString(),
        "calibration", check.calibrationId(),
        "known_n", check.known().value().newtons(),
        "shown_n", check.shown().value().newtons(),
        "limit_n", check.limit().newtons(),
        "error_percent", ControlCharts.errorPercent(check),
        "within", check.withinLimit());
  }
}
