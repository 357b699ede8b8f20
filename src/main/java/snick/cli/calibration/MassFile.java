package snick.cli.calibration;

import java.util.List;
import java.util.OptionalDouble;
import snick.cli.terminal.CsvTable;
import snick.cli.terminal.Refusal;
import snick.force.mass.MassClass;
import snick.force.mass.ReferenceMass;
import snick.quantity.Mass;

/** A mass set in a CSV file; its columns are described in {@code rig-calibration/README.md}. */
final class MassFile {
  private static final List<String> NEEDED = List.of("name", "mass_g");
  private static final double USUAL_COVERAGE_FACTOR = 2;

  private MassFile() {}

  /** The masses of {@code file}, in order. */
  static List<ReferenceMass> read(String file) {
    return CsvTable.read(file, NEEDED).rows().stream().map(MassFile::mass).toList();
  }

  private static ReferenceMass mass(CsvTable.Row row) {
    double grams = row.required("mass_g");
    return Refusal.ifNotAccepted(
        () -> mass(row, Mass.ofGrams(grams)),
        why -> row.refusal(why, "correct the line or take it out"));
  }

  private static ReferenceMass mass(CsvTable.Row row, Mass mass) {
    OptionalDouble expanded = row.number("U_mg");
    OptionalDouble standard = row.number("u_mg");
    OptionalDouble tolerance = row.number("tolerance_mg");
    boolean byClass = !row.text("class").isEmpty();
    long ways =
        List.of(byClass, expanded.isPresent(), standard.isPresent(), tolerance.isPresent()).stream()
            .filter(given -> given)
            .count();
    if (ways != 1) {
      throw row.refusal(
          ways + " of class, U_mg, u_mg, tolerance_mg are given", "give exactly one of them");
    }
    String name = row.text("name");
    double density = row.number("density_kg_m3").orElse(ReferenceMass.CONVENTIONAL_DENSITY);
    if (byClass) {
      return ReferenceMass.ofClass(MassClass.named(row.text("class")), mass).called(name);
    }
    if (expanded.isPresent()) {
      double k = row.number("k").orElse(USUAL_COVERAGE_FACTOR);
      return ReferenceMass.certified(name, mass, milligrams(expanded), k);
    }
    return standard.isPresent()
        ? ReferenceMass.stated(name, mass, milligrams(standard), density)
        : ReferenceMass.toleranced(name, mass, milligrams(tolerance), density);
  }

  private static Mass milligrams(OptionalDouble amount) {
    return Mass.ofGrams(amount.getAsDouble() / 1000);
  }
}
