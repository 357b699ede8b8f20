package snick.cli.lot;

import java.util.Optional;
import picocli.CommandLine.Option;
import snick.cli.terminal.Refusal;
import snick.journal.FilamentLot;

/** What is said of a filament lot. */
final class LotFields {
  @Option(
      names = "--material",
      paramLabel = "TEXT",
      description = "For example 'nylon monofilament'.")
  private Optional<String> material;

  @Option(names = "--diameter", paramLabel = "MM", description = "Diameter, mm.")
  private Optional<Double> diameterMm;

  /** A new lot; both must be said. */
  FilamentLot named(String lot) {
    return new FilamentLot(
        lot,
        material.orElseThrow(() -> Refusal.usage("--material is missing")),
        diameterMm.orElseThrow(() -> Refusal.usage("--diameter is missing")));
  }

  /** {@code before} with what was said in place of what it says. */
  FilamentLot over(FilamentLot before) {
    return new FilamentLot(
        before.lot(), material.orElse(before.material()), diameterMm.orElse(before.diameterMm()));
  }
}
