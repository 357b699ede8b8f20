package snick.cli.calibration;

import picocli.CommandLine.Option;
import snick.cli.terminal.Refusal;
import snick.force.EdgeGeometry;

/** What the person knows of the way from the edge to the cell. */
final class EdgeChoice {
  @Option(
      names = "--place-effect",
      paramLabel = "X",
      defaultValue = "0",
      description =
          "Largest relative effect of where on the filament the edge presses; snick verify place"
              + " finds it (default: ${DEFAULT-VALUE}).")
  private double place;

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

  EdgeGeometry geometry() {
    try {
      return new EdgeGeometry(place, pullDegrees, tiltDegrees, friction);
    } catch (IllegalArgumentException e) {
      throw Refusal.badInput(
          e.getMessage() + "; see --place-effect, --pull, --tilt and --friction in the help");
    }
  }
}
