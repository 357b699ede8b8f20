package snick.cli.calibration;

import java.time.Clock;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.DataCommand;
import snick.force.budget.Conditions;
import snick.force.reading.CalibrationData;
import snick.report.sheet.BenchSheet;

/** Makes and saves a calibration from readings in a file or a pipe. */
@Command(
    name = "points",
    description = {
      "Make a calibration from readings in a file or a pipe and save it: what the guided one does,"
          + " for scripts. Columns: load (g),reading (counts) and if you like"
          + " run,direction,u_load,sd,samples,seconds. A row of load 0 first or last in a run is its"
          + " zero. Rows of direction 'hold' are one load left resting, for creep: seconds since it"
          + " was put on."
    },
    footer = {
      "  snick calibrate points rig-calibration/example-run-simulated.csv \\",
      "    --rig 51ab --latitude 48.1",
      "  snick calibrate points rig-calibration/example-run-hold-simulated.csv \\",
      "    --rig 51ab --gravity 9.807 --masses rig-calibration/mass-set-m1.csv \\",
      "    --load 100g --load 200g --load 200g+100g --load 500g",
      "  cat points.csv | snick calibrate points - --rig 51ab --gravity 9.807 \\",
      "    --masses rig-calibration/mass-set-m1.csv --json"
    })
final class CalibratePointsCommand extends DataCommand implements Runnable {
  @Parameters(paramLabel = "POINTS.csv", description = "Readings, or - for standard input.")
  private String file;

  @Mixin private SettingChoice setting;
  @Mixin private MassChoice masses;
  @Mixin private PlaceChoice place;
  @Mixin private StabilityChoice stability;
  @Mixin private EdgeChoice edge;
  @Mixin private DegreeChoice degree;

  @Option(names = "--json", description = "The result as one JSON object.")
  private boolean json;

  @Override
  public void run() {
    degree.rule();
    Conditions conditions =
        new Conditions(
            place.gravity().orElseThrow(PlaceChoice::missing),
            place.air(),
            stability.stability(),
            edge.geometry(data, setting.setting().deviceId()));
    CalibrationData readings = PointsRuns.read(file, masses.loads(), setting.setting());
    BenchSheet sheet =
        new BenchSheet(Clock.systemUTC().instant(), degree.word(), conditions, readings);
    NewCalibration.save(sheet, data).print(out(), json);
  }
}
