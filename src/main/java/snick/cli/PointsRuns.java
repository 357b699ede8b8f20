package snick.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import snick.force.CalibrationData;
import snick.force.CalibrationRun;
import snick.force.Direction;
import snick.force.HeldReading;
import snick.force.Load;
import snick.force.ReferenceMass;
import snick.force.RigSetting;
import snick.quantity.Mass;

/**
 * Calibration runs in a file: {@code load,reading} in g and counts, with {@code run}, {@code
 * direction}, {@code u_load} and {@code sd}. A row with load 0 first or last in its run is its
 * zero; without one, readings count as above zero.
 */
final class PointsRuns {
  private static final long STEP_NANOS = 10_000_000_000L;
  private static final long WINDOW_NANOS = 2_000_000_000L;
  private static final int SAMPLES = 2;
  private static final double SAME_MASS = 0.01;

  private final List<ReferenceMass> masses;
  private long nanos;

  private PointsRuns(List<ReferenceMass> masses) {
    this.masses = masses;
  }

  /**
   * The readings of {@code file}.
   *
   * @param masses masses that were used, matched by their nominal mass; if none are named, each row
   *     states its own with {@code u_load}
   */
  static CalibrationData read(String file, List<ReferenceMass> masses, RigSetting setting) {
    CsvTable table = CsvTable.read(file, List.of("load", "reading"));
    Map<Double, List<CsvTable.Row>> byRun = new TreeMap<>();
    for (CsvTable.Row row : table.rows()) {
      byRun.computeIfAbsent(row.number("run").orElse(1), n -> new ArrayList<>()).add(row);
    }
    PointsRuns runs = new PointsRuns(masses);
    try {
      return new CalibrationData(
          setting, byRun.values().stream().map(runs::run).toList(), Optional.empty());
    } catch (IllegalArgumentException e) {
      throw Refusal.badInput(table.name() + ": " + e.getMessage());
    }
  }

  private CalibrationRun run(List<CsvTable.Row> rows) {
    List<CsvTable.Row> loaded = new ArrayList<>(rows);
    HeldReading before = isZero(loaded.get(0)) ? held(loaded.remove(0)) : aboveZero();
    Optional<CsvTable.Row> last =
        loaded.isEmpty() || !isZero(loaded.get(loaded.size() - 1))
            ? Optional.empty()
            : Optional.of(loaded.remove(loaded.size() - 1));
    List<CalibrationRun.Loaded> readings = loaded.stream().map(this::loaded).toList();
    return new CalibrationRun(before, readings, last.map(this::held).orElseGet(() -> like(before)));
  }

  private static boolean isZero(CsvTable.Row row) {
    return row.required("load") == 0;
  }

  private HeldReading aboveZero() {
    return held(0, 0);
  }

  private HeldReading like(HeldReading zero) {
    return held(zero.meanCounts(), zero.sdCounts());
  }

  private HeldReading held(CsvTable.Row row) {
    try {
      return held(row.required("reading"), row.number("sd").orElse(0));
    } catch (IllegalArgumentException e) {
      throw row.refusal(e.getMessage(), "correct the line or take it out");
    }
  }

  private HeldReading held(double counts, double sdCounts) {
    nanos += STEP_NANOS;
    return new HeldReading(counts, sdCounts, SAMPLES, nanos, nanos + WINDOW_NANOS);
  }

  private CalibrationRun.Loaded loaded(CsvTable.Row row) {
    try {
      String direction = row.text("direction");
      return new CalibrationRun.Loaded(
          Load.of(mass(row)),
          direction.isEmpty() ? Direction.UP : Direction.named(direction),
          held(row));
    } catch (IllegalArgumentException e) {
      throw row.refusal(e.getMessage(), "correct the line or take it out");
    }
  }

  private ReferenceMass mass(CsvTable.Row row) {
    double grams = row.required("load");
    if (masses.isEmpty()) {
      double u =
          row.number("u_load")
              .orElseThrow(
                  () ->
                      row.refusal(
                          "the load's uncertainty is not known",
                          "name the masses with --masses, or fill in u_load (g)"));
      return ReferenceMass.stated(
          row.text("load") + " g",
          Mass.ofGrams(grams),
          Mass.ofGrams(u),
          ReferenceMass.CONVENTIONAL_DENSITY);
    }
    return masses.stream()
        .filter(m -> Math.abs(m.conventionalMass().grams() / grams - 1) < SAME_MASS)
        .findFirst()
        .orElseThrow(
            () ->
                row.refusal(
                    "no mass of " + row.text("load") + " g in the mass set",
                    "add it to the set, or correct the line"));
  }
}
