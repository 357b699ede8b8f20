package snick.cli.verification;

import java.time.Clock;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import snick.cli.bench.BenchFeed;
import snick.cli.calibration.MassCommand;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.Numbers;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Table;
import snick.force.check.PlaceCheck;
import snick.force.mass.Load;
import snick.force.reading.CalibrationPlan;
import snick.force.reading.HeldReading;
import snick.json.Json;
import snick.store.KeptPlace;
import snick.store.record.Evidence;

/** Hangs one mass at several places of the filament. */
@Command(
    name = "place",
    description = {
      "Hang one mass at several places of the filament: does the reading depend on the place? Kept"
          + " with the rig. Exit status 3 if it does; needs no calibration."
    },
    footer = {
      "  snick verify place /dev/ttyACM0 --mass 100g:M1",
      "  snick verify place /dev/ttyACM0 --mass 50g:M1 --at -20,-10,0,10,20 --limit 0.3",
      "",
      "What it means, with a drawing: rig-calibration/cell-to-edge.md. No blade in the rig.",
    })
public final class VerifyPlaceCommand extends MassCommand {

  @Option(
      names = "--at",
      paramLabel = "MM",
      split = ",",
      arity = "1",
      defaultValue = "-10,0,10",
      description = "Places, mm from the filament's middle (default: ${DEFAULT-VALUE}).")
  private List<Double> placesMm;

  @Option(
      names = "--limit",
      paramLabel = "PERCENT",
      defaultValue = "0.5",
      description =
          "Largest difference from the middle that passes, %% (default: ${DEFAULT-VALUE}).")
  private double limitPercent;

  @Override
  public Integer call() {
    rig.requireNamed();
    check(placesMm.stream().map(mm -> new PlaceCheck.Point(mm, 1)).toList());
    Load load = masses.one();
    PlaceCheck found;
    String device;
    try (BenchFeed bench = BenchFeed.open(rig, 1)) {
      device = bench.setting().deviceId();
      found = check(points(bench, load));
    }
    keep(device, load, found);
    tell(json, () -> object(load, found), () -> print(found));
    return found.passes() ? ExitCode.OK : ExitCode.NOT_PASSED;
  }

  private PlaceCheck check(List<PlaceCheck.Point> points) {
    return Refusal.ifNotAccepted(
        () -> new PlaceCheck(points, limitPercent / 100),
        why -> Refusal.usage(why + "; see the help"));
  }

  private List<PlaceCheck.Point> points(BenchFeed bench, Load load) {
    CheckMass check = new CheckMass(bench, bench.operator(talk()), talk());
    List<PlaceCheck.Point> points = new ArrayList<>();
    for (double mm : placesMm) {
      HeldReading zero = check.read(new CalibrationPlan.Step.Unload(), OptionalDouble.empty());
      talk().println("Next at " + Numbers.fixed(mm, 1) + " mm from the middle of the filament:");
      HeldReading loaded = check.readUnder(load, zero);
      points.add(new PlaceCheck.Point(mm, loaded.meanCounts() - zero.meanCounts()));
    }
    return points;
  }

  private void keep(String device, Load load, PlaceCheck found) {
    String document = Json.text(object(load, found));
    Evidence kept = new Evidence(device, KeptPlace.KIND, Clock.systemUTC().instant(), document);
    OpenedStore.save(data, store -> store.add(kept));
  }

  private static Map<String, Object> object(Load load, PlaceCheck found) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("mass", load.name());
    List<Object> points = new ArrayList<>();
    for (PlaceCheck.Point point : found.points()) {
      Map<String, Object> one = new LinkedHashMap<>();
      one.put("place_mm", point.placeMm());
      one.put("deflection_counts", point.deflectionCounts());
      one.put("relative", found.relative(point));
      points.add(one);
    }
    object.put("points", points);
    object.put("largest", found.largest());
    object.put("per_mm", found.perMillimetre());
    object.put("limit", found.limit());
    object.put("within", found.passes());
    return object;
  }

  private void print(PlaceCheck found) {
    Table table = new Table(">PLACE mm", ">COUNTS", ">AGAINST THE MIDDLE %");
    for (PlaceCheck.Point point : found.points()) {
      table.row(
          Numbers.fixed(point.placeMm(), 1),
          Numbers.fixed(point.deflectionCounts(), 1),
          Numbers.fixed(100 * found.relative(point), 3));
    }
    table.print(out());
    println(
        "Largest %s %%, limit %s %%, %s %% a mm: %s",
        Numbers.fixed(100 * found.largest(), 3),
        Numbers.fixed(100 * found.limit(), 3),
        Numbers.fixed(100 * found.perMillimetre(), 3),
        found.passes() ? "within limits." : "OUT OF LIMITS.");
    println(
        found.passes()
            ? "Kept: the budget of the next calibration takes it."
            : "The cell does not carry the whole filament frame, or the frame rubs:"
                + " rig-calibration/cell-to-edge.md says which build does.");
  }
}
