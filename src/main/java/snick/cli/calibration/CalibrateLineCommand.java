package snick.cli.calibration;

import java.time.Clock;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import snick.cli.option.DataCommand;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.Refusal;
import snick.force.budget.Calibration;
import snick.force.fit.CalibrationCurve;
import snick.force.fit.ForceRange;
import snick.quantity.Force;
import snick.report.sheet.CalibrationRecord;
import snick.store.StoreReader;

/** Saves a straight line that is known from elsewhere. */
@Command(
    name = "line",
    description = {
      "Save a straight line known from elsewhere: zero and span as read, with their standard"
          + " uncertainties. Beside them only the way from the edge to the cell enters its"
          + " uncertainty, as far as it is stated."
    },
    footer = {
      "  snick calibrate line --rig 51ab --zero 84210 --span 302835 \\",
      "    --span-gf 500 --u-span 90",
      "  snick calibrate line --rig 51ab --zero 0 --span 437.25 \\",
      "    --span-gf 1 --u-span 0.4 --to-gf 1000"
    })
final class CalibrateLineCommand extends DataCommand implements Runnable {
  private static final double LARGEST_GRAM_FORCE = 1e7;

  @Mixin private SettingChoice setting;
  @Mixin private StabilityChoice stability;
  @Mixin private EdgeChoice edge;

  @Option(
      names = "--zero",
      paramLabel = "COUNTS",
      required = true,
      description = "Reading without load.")
  private double zeroCounts;

  @Option(
      names = "--span",
      paramLabel = "COUNTS",
      required = true,
      description = "Reading under the load of --span-gf.")
  private double spanCounts;

  @Option(names = "--span-gf", paramLabel = "GF", required = true, description = "That load, gf.")
  private double spanGramForce;

  @Option(
      names = "--u-zero",
      paramLabel = "COUNTS",
      defaultValue = "0",
      description = "Standard uncertainty of the zero (default: ${DEFAULT-VALUE}).")
  private double uncertaintyOfZero;

  @Option(
      names = "--u-span",
      paramLabel = "COUNTS",
      required = true,
      description = "Standard uncertainty of the reading under load, that of the load included.")
  private double uncertaintyOfSpan;

  @Option(
      names = "--to-gf",
      paramLabel = "GF",
      description = "Largest force that it is good for (default: that of --span-gf).")
  private Optional<Double> toGramForce;

  @Option(names = "--json", description = "The result as one JSON object.")
  private boolean json;

  @Override
  public void run() {
    requireRange("--span-gf", spanGramForce);
    toGramForce.ifPresent(to -> requireRange("--to-gf", to));
    Calibration calibration = calibration();
    OpenedStore.save(data, store -> store.add(calibration, Optional.empty()));
    try (StoreReader store = OpenedStore.toRead(data)) {
      print(CalibrationRecord.of(store.calibration(calibration.id()).orElseThrow(), store));
    }
  }

  private static void requireRange(String option, double gramForce) {
    if (!(gramForce > 0 && gramForce <= LARGEST_GRAM_FORCE)) {
      throw Refusal.badInput(option + " " + gramForce + " is outside 0 to 10000000 gf");
    }
  }

  private Calibration calibration() {
    int polarity = setting.setting().polarity();
    double newtons = Force.ofGramForce(spanGramForce).newtons();
    double slope = polarity * (spanCounts - zeroCounts) / newtons;
    double uncertainty = Math.hypot(uncertaintyOfSpan, uncertaintyOfZero) / newtons;
    if (!(uncertaintyOfSpan >= 0 && uncertaintyOfZero >= 0)) {
      throw Refusal.badInput("--u-zero and --u-span: neither may be negative");
    }
    return Refusal.ifNotAccepted(
        () ->
            Calibration.named(
                Optional.of(setting.setting()),
                Clock.systemUTC().instant(),
                Optional.of(stability.validity()),
                new CalibrationCurve(
                    new double[] {0, slope},
                    new double[][] {{0, 0}, {0, uncertainty * uncertainty}},
                    Double.POSITIVE_INFINITY),
                new ForceRange(Force.ZERO, Force.ofGramForce(toGramForce.orElse(spanGramForce))),
                edge.geometry(data, setting.setting().deviceId()).terms(),
                "typed in"),
        why ->
            Refusal.badInput(
                why
                    + "; is --span above --zero in loading direction? A cell that falls under load:"
                    + " --polarity -1"));
  }

  private void print(CalibrationRecord record) {
    tell(json, () -> record.json(), () -> CalibrationText.print(out(), record));
  }
}
