package snick.cli.verification;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import snick.cli.bench.BenchFeed;
import snick.cli.calibration.MassCommand;
import snick.cli.calibration.PlaceChoice;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.Numbers;
import snick.cli.terminal.Refusal;
import snick.force.check.MassCheck;
import snick.force.mass.Load;
import snick.force.reading.CalibrationPlan;
import snick.force.reading.HeldReading;
import snick.json.Json;
import snick.quantity.Force;
import snick.report.sheet.CheckSheet;
import snick.store.StoreReader;

/** Checks a calibration with one mass. */
@Command(
    name = "verify",
    description = {
      "Check the calibration in use with one mass: within limits or not, kept, and shown on a"
          + " control chart. Exit status 3 if it is out."
    },
    subcommands = {VerifyChartCommand.class, VerifyDynamicCommand.class, VerifyPlaceCommand.class},
    footer = {
      "  snick verify /dev/ttyACM0 --mass 100g:M1",
      "  snick verify --virtual --mass 200g:M1      after: snick calibrate --virtual",
      "  snick verify chart --file chart.svg",
      "",
      "No blade in the rig. Masses fall: work low over a soft tray, keep feet away.",
    })
public final class VerifyCommand extends MassCommand {
  private static final double LARGEST_LIMIT_PERCENT = 50;

  @Mixin private PlaceChoice place;

  @Option(
      names = "--limit",
      paramLabel = "PERCENT",
      description =
          "Largest error that passes, %% of the mass's force (default: the expanded uncertainty of"
              + " the difference, 95 %%).")
  private Optional<Double> limitPercent;

  @Option(
      names = "--chart",
      paramLabel = "FILE",
      description = "Write the control chart there, .svg or .png.")
  private Optional<Path> chart;

  @Override
  public Integer call() {
    rig.requireNamed();
    requireLimit();
    Load load = masses.one();
    rig.keptIn(data);
    try (BenchFeed bench = BenchFeed.open(rig, 1)) {
      CalibrationInUse inUse = CalibrationInUse.of(bench, data);
      Load.Exerted exerted = load.exerted(inUse.gravity(place), inUse.air(place));
      inUse.requireInRange(exerted);
      CheckMass check = new CheckMass(bench, bench.operator(talk()), talk());
      HeldReading zero = check.read(new CalibrationPlan.Step.Unload(), OptionalDouble.empty());
      HeldReading loaded = check.readUnder(load, zero);
      return judge(inUse, load, exerted, zero, loaded);
    }
  }

  private void requireLimit() {
    limitPercent.ifPresent(
        percent -> {
          if (!(percent > 0 && percent <= LARGEST_LIMIT_PERCENT)) {
            throw Refusal.usage("--limit " + percent + " is outside 0 to 50 %");
          }
        });
  }

  private int judge(
      CalibrationInUse inUse,
      Load load,
      Load.Exerted exerted,
      HeldReading zero,
      HeldReading loaded) {
    MassCheck result = verification(inUse, exerted, zero, loaded);
    snick.store.record.Verification kept =
        CheckSheet.of(
            inUse.calibration(),
            result,
            new CheckSheet.Reading(
                load, exerted, List.of(zero, loaded), Clock.systemUTC().instant()));
    OpenedStore.save(data, store -> store.add(kept));
    tell(json, () -> object(load, result), () -> print(load, result));
    history(inUse);
    return result.passes() ? ExitCode.OK : ExitCode.NOT_PASSED;
  }

  private MassCheck verification(
      CalibrationInUse inUse, Load.Exerted exerted, HeldReading zero, HeldReading loaded) {
    return Refusal.ifNotAccepted(
        () ->
            MassCheck.of(
                inUse.calibration(),
                exerted,
                zero,
                loaded,
                limitPercent.map(p -> OptionalDouble.of(p / 100)).orElse(OptionalDouble.empty())),
        why -> Refusal.badInput(why));
  }

  private static Map<String, Object> object(Load load, MassCheck result) {
    return Json.object(
        "mass", load.name(),
        "calibration", result.calibrationId(),
        "known_n", result.expectedNewtons(),
        "shown_n", result.measuredNewtons(),
        "u_difference_n", result.standardUncertaintyNewtons(),
        "limit_n", result.limitNewtons(),
        "relative_error", result.relativeError(),
        "within", result.passes());
  }

  private void print(Load load, MassCheck result) {
    double limit = 100 * result.limitNewtons() / result.expectedNewtons();
    println(
        "%s: known %s gf, shown %s gf, error %s %%, limit %s %%: %s",
        load.name(),
        Numbers.fixed(gramForce(result.expectedNewtons()), 2),
        Numbers.fixed(gramForce(result.measuredNewtons()), 2),
        Numbers.fixed(100 * result.relativeError(), 3),
        Numbers.fixed(limit, 3),
        result.passes() ? "within limits." : "OUT OF LIMITS.");
    if (!result.passes()) {
      println("Check the mass, free the cell, warm up, verify again; if it stays out, calibrate.");
    }
  }

  private void history(CalibrationInUse inUse) {
    try (StoreReader store = OpenedStore.toRead(data)) {
      List<snick.store.record.Verification> checks =
          VerifyChartCommand.of(inUse.calibration().id(), inUse.setting().deviceId(), store);
      chart.ifPresent(file -> ControlChartText.write(checks, file));
      if (!json) {
        ControlChartText.print(out(), checks);
      }
    }
  }

  private static double gramForce(double newtons) {
    return newtons / Force.NEWTONS_PER_GRAM_FORCE;
  }
}
