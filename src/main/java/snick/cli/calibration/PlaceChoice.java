package snick.cli.calibration;

import java.util.Optional;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import snick.cli.terminal.Refusal;
import snick.force.mass.AirDensity;
import snick.force.mass.Gravity;

/** Where masses become forces: local gravity and the density of the air. */
public final class PlaceChoice {
  @Option(names = "--gravity", paramLabel = "M_S2", description = "Local gravity, measured, m/s².")
  private Double gravity;

  @Option(
      names = "--u-gravity",
      paramLabel = "M_S2",
      defaultValue = "0.0001",
      description = "Its standard uncertainty (default: ${DEFAULT-VALUE}).")
  private double uncertaintyOfGravity;

  @Option(
      names = "--latitude",
      paramLabel = "DEG",
      description = "Latitude, degrees, south negative: gravity by the normal-gravity formula.")
  private Double latitude;

  @Option(
      names = "--height",
      paramLabel = "M",
      defaultValue = "0",
      description = "Height above sea level, m (default: ${DEFAULT-VALUE}).")
  private double height;

  @Option(
      names = "--anywhere",
      description = "Leave the place open: gravity anywhere on Earth at sea level, ± 0.3 %%.")
  private boolean anywhere;

  @Option(
      names = "--air",
      paramLabel = "C,HPA,PERCENT",
      split = ",",
      description =
          "Air at the bench: temperature in °C, station pressure in hPa, relative humidity in %%"
              + " (default: 1.2 kg/m³ ± 10 %%).")
  private double[] air;

  @Option(
      names = "--u-air",
      paramLabel = "K,HPA,PERCENT",
      split = ",",
      defaultValue = "1,2,10",
      description = "Their standard uncertainties (default: ${DEFAULT-VALUE}).")
  private double[] uncertaintyOfAir;

  @Spec(Spec.Target.MIXEE)
  private CommandSpec command;

  /** Gravity as stated; empty if nothing was. */
  public Optional<Gravity> gravity() {
    if (gravity != null && isTyped("--latitude")) {
      throw Refusal.usage("give --gravity or --latitude, not both");
    }
    if (anywhere && (gravity != null || isTyped("--latitude"))) {
      throw Refusal.usage("give the place or --anywhere, not both");
    }
    return Refusal.ifNotAccepted(
        this::stated,
        why ->
            Refusal.badInput(
                why + "; give the place as --latitude 48.1 --height 520, or --gravity 9.807"));
  }

  private Optional<Gravity> stated() {
    if (anywhere) {
      return Optional.of(Gravity.onEarth());
    }
    return gravity != null
        ? Optional.of(Gravity.measured(gravity, uncertaintyOfGravity))
        : Optional.ofNullable(latitude).map(degrees -> Gravity.at(degrees, height));
  }

  /** Whether an option was typed: what was only set gives way. */
  private boolean isTyped(String option) {
    return command.commandLine().getParseResult().hasMatchedOption(option);
  }

  /** The complaint of a command that needs to know where the rig stands. */
  public static Refusal missing() {
    return Refusal.usage(
        "say where the rig stands, for local gravity: --latitude 48.1 --height 520, or --gravity"
            + " 9.807 if it was measured, or --anywhere");
  }

  /** Gravity as stated, else anywhere on Earth at sea level, with the uncertainty of that. */
  Gravity gravityOrAnywhere() {
    return gravity().orElseGet(Gravity::onEarth);
  }

  /** Air as measured, else standard air with its uncertainty. */
  AirDensity air() {
    return airMeasured().orElseGet(AirDensity::standard);
  }

  /** Air as measured; empty if nothing was stated. */
  public Optional<AirDensity> airMeasured() {
    if (air == null) {
      return Optional.empty();
    }
    if (air.length != 3 || uncertaintyOfAir.length != 3) {
      throw Refusal.usage(
          "--air and --u-air take three numbers: temperature, pressure, humidity, as in"
              + " --air 21,985,45");
    }
    double[] u = uncertaintyOfAir;
    return Optional.of(
        Refusal.ifNotAccepted(
            () ->
                AirDensity.cipm2007(
                    new AirDensity.Weather(air[0], air[1], air[2], u[0], u[1], u[2])),
            why -> Refusal.badInput(why + "; leave --air out for standard air")));
  }
}
