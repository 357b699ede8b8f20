package snick.cli.journal;

import java.util.Optional;
import java.util.OptionalDouble;
import picocli.CommandLine.Option;
import snick.journal.Blade;

/** What can be said of a blade. */
final class BladeFields {
  @Option(
      names = "--steel",
      paramLabel = "TEXT",
      description = "Name of the steel, as you call it.")
  private Optional<String> steel;

  @Option(names = "--hardness", paramLabel = "HRC", description = "Rockwell C hardness.")
  private Optional<Double> hardnessHrc;

  @Option(
      names = "--angle",
      paramLabel = "DEG",
      description = "Included angle of the edge, both sides together, degrees.")
  private Optional<Double> edgeAngleDegrees;

  @Option(names = "--thickness", paramLabel = "MM", description = "Behind the edge, mm.")
  private Optional<Double> thicknessMm;

  @Option(names = "--length", paramLabel = "MM", description = "Edge from heel to tip, mm.")
  private Optional<Double> lengthMm;

  @Option(
      names = "--margin",
      paramLabel = "GF",
      description = "Largest difference in force that does not matter to you on it, gf.")
  private Optional<Double> marginGf;

  @Option(names = "--notes", paramLabel = "TEXT", description = "Anything else.")
  private Optional<String> notes;

  /** {@code before} with what was said in place of what it says. */
  Blade over(Blade before) {
    return new Blade(
        before.label(),
        steel.orElse(before.steel()),
        said(hardnessHrc, before.hardnessHrc()),
        said(edgeAngleDegrees, before.edgeAngleDegrees()),
        said(thicknessMm, before.thicknessBehindEdgeMm()),
        said(lengthMm, before.edgeLengthMm()),
        said(marginGf, before.marginGf()),
        notes.orElse(before.notes()));
  }

  private static OptionalDouble said(Optional<Double> now, OptionalDouble before) {
    return now.map(OptionalDouble::of).orElse(before);
  }
}
