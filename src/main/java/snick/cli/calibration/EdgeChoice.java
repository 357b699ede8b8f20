package snick.cli.calibration;

import java.nio.file.Files;
import java.util.Optional;
import picocli.CommandLine.Option;
import snick.cli.option.DataDirectory;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.Refusal;
import snick.force.budget.EdgeGeometry;
import snick.phrase.NotAccepted;
import snick.store.KeptPlace;
import snick.store.StoreReader;

/** What the person knows of the way from the edge to the cell. */
final class EdgeChoice {
  @Option(
      names = "--place-effect",
      paramLabel = "X",
      description =
          "Largest relative effect of where on the filament the edge presses (default: what the"
              + " last snick verify place of the rig found, else 0).")
  private Optional<Double> place;

  @Option(
      names = "--pull",
      paramLabel = "DEGREES",
      defaultValue = "0",
      description = "How far the pull may lean from the cell's axis (default: ${DEFAULT-VALUE}).")
  private double pullDegrees;

  @Option(
      names = "--tilt",
      paramLabel = "DEGREES",
      defaultValue = "0",
      description =
          "How far the rig may lean from how it stood at calibration (default: ${DEFAULT-VALUE}).")
  private double tiltDegrees;

  @Option(
      names = "--friction",
      paramLabel = "X",
      defaultValue = "0",
      description = "Relative part of the force that guides may carry (default: ${DEFAULT-VALUE}).")
  private double friction;

  /** As typed; the place, if that was not, as the check that was kept last for the rig found it. */
  EdgeGeometry geometry(DataDirectory data, String deviceId) {
    if (place.isPresent() || !Files.isRegularFile(data.path().resolve(OpenedStore.FILE))) {
      return geometry(place.orElse(0.0));
    }
    try (StoreReader store = OpenedStore.toRead(data)) {
      return geometry(KeptPlace.effect(store, deviceId));
    } catch (NotAccepted e) {
      throw Refusal.failed(e.getMessage(), e);
    }
  }

  private EdgeGeometry geometry(double effectOfPlace) {
    return Refusal.ifNotAccepted(
        () -> new EdgeGeometry(effectOfPlace, pullDegrees, tiltDegrees, friction),
        why ->
            Refusal.badInput(
                why + "; see --place-effect, --pull, --tilt and --friction in the help"));
  }
}
