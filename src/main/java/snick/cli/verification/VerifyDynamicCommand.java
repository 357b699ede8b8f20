package snick.cli.verification;

import java.time.Clock;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import snick.cli.bench.BenchFeed;
import snick.cli.calibration.MassCommand;
import snick.cli.calibration.PlaceChoice;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.Numbers;
import snick.cli.terminal.Refusal;
import snick.force.check.DynamicCheck;
import snick.force.check.StepResponse;
import snick.force.mass.Load;
import snick.json.Json;
import snick.quantity.Force;
import snick.store.record.Evidence;
import snick.virtualrig.signal.StepTruth;

/** Cuts the thread of a hanging mass. */
@Command(
    name = "dynamic",
    description = {
      "Check the whole chain with a step of known force: a mass hangs by the filament thread, the"
          + " thread is cut. Shows delay, fall and ring with their limits, and the detector's"
          + " estimate beside the known"
          + " force; keeps both as evidence. Exit status 3 if they disagree."
    },
    footer = {
      "  snick verify dynamic /dev/ttyACM0 --mass 200g:M1",
      "  snick verify dynamic --virtual --mass 200g:M1     beside what is true",
      "",
      "The mass drops at once: lay a cushion under it, stand clear, wear eye protection.",
    })
final class VerifyDynamicCommand extends MassCommand {
  @Mixin private PlaceChoice place;

  @Override
  public Integer call() {
    rig.requireNamed();
    Load load = masses.one();
    rig.keptIn(data);
    try (BenchFeed bench = BenchFeed.open(rig, 1)) {
      CalibrationInUse inUse = CalibrationInUse.of(bench, data);
      Load.Exerted exerted = load.exerted(inUse.gravity(place), inUse.air(place));
      inUse.requireInRange(exerted);
      ThreadCut thread = new ThreadCut(bench, bench.operator(talk()), talk());
      DynamicCheck check = check(inUse, exerted, thread.cut(load));
      StepWords step = new StepWords(check.response(), knownCut(bench));
      keep(inUse, load, check, step);
      tell(json, () -> object(load, check, step), () -> print(load, check, step));
      return check.agrees() ? ExitCode.OK : ExitCode.NOT_PASSED;
    }
  }

  private Optional<StepWords.KnownCut> knownCut(BenchFeed bench) {
    OptionalLong cutNanos = bench.trueCutNanos();
    return cutNanos.isPresent()
        ? Optional.of(
            new StepWords.KnownCut(cutNanos.getAsLong(), StepTruth.of(rig.virtualSettings())))
        : Optional.empty();
  }

  private static DynamicCheck check(
      CalibrationInUse inUse, Load.Exerted exerted, ThreadCut.Seen seen) {
    return Refusal.ifNotAccepted(
        () ->
            DynamicCheck.of(
                inUse.calibration(),
                StepResponse.of(seen.aroundTheFall(), inUse.setting().polarity()),
                exerted,
                seen.peak()),
        why -> Refusal.badInput(why + "; nothing is saved"));
  }

  private void keep(CalibrationInUse inUse, Load load, DynamicCheck check, StepWords step) {
    String document = Json.text(object(load, check, step));
    String device = inUse.setting().deviceId();
    Evidence kept = new Evidence(device, "dynamic_check", Clock.systemUTC().instant(), document);
    OpenedStore.save(data, store -> store.add(kept));
  }

  private static Map<String, Object> object(Load load, DynamicCheck check, StepWords step) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("mass", load.name());
    object.put("calibration", check.calibrationId());
    step.addTo(object);
    object.put("known_n", check.known().value().newtons());
    object.put("u_known_n", check.known().standardUncertainty().newtons());
    object.put("estimated_n", check.estimated().value().newtons());
    object.put("u_estimated_n", check.estimated().standardUncertainty().newtons());
    object.put("observed_n", check.observedNewtons());
    object.put("relative_error", check.relativeError());
    object.put("normalised_error", check.normalisedError());
    object.put("agrees", check.agrees());
    return object;
  }

  private void print(Load load, DynamicCheck check, StepWords step) {
    line("mass", load.name());
    step.lines().forEach(this::line);
    line("known", Numbers.newtons(check.known()) + " = " + Numbers.gramForce(check.known()));
    line(
        "estimated",
        Numbers.newtons(check.estimated()) + " = " + Numbers.gramForce(check.estimated()));
    line("largest sample", Numbers.gramForce(Force.ofNewtons(check.observedNewtons())) + " gf");
    line(
        "error",
        "%s %%, %s of its expanded uncertainty: %s"
            .formatted(
                Numbers.fixed(100 * check.relativeError(), 3),
                Numbers.fixed(check.normalisedError(), 2),
                check.agrees() ? "they agree." : "THEY DISAGREE."));
    if (!check.agrees()) {
      println("Verify with a mass at rest first; then look at mounting and sampling rate.");
    }
    println("Kept as evidence. ± is the expanded uncertainty, k = 2.");
  }
}
