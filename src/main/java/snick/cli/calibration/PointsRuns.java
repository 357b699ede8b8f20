package snick.cli.calibration;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import snick.cli.terminal.CsvTable;
import snick.cli.terminal.Refusal;
import snick.force.mass.Load;
import snick.force.mass.ReferenceMass;
import snick.force.reading.CalibrationData;
import snick.force.reading.CalibrationRun;
import snick.force.reading.HeldReading;
import snick.force.reading.RigSetting;
import snick.quantity.Mass;

/**
 * Calibration runs in a file: {@code load,reading} in g and counts, with {@code run}, {@code
 * direction}, {@code u_load}, {@code sd}, {@code samples} and {@code seconds}. A row with load 0
 * first or last in its run is its zero; without one, readings count as above zero. Rows of
 * direction {@code hold} are readings of one load left resting, {@code seconds} after it was put
 * on.
 */
final class PointsRuns {
  private static final long STEP_NANOS = 10_000_000_000L;
  private static final long WINDOW_NANOS = 2_000_000_000L;
  private static final double SAME_MASS = 0.01;
  private static final int MOST_SAMPLES = 1_000_000;
  private static final double LONGEST_HOLD_SECONDS = 86_400;

  private final List<Load> loads;
  private final int usualSamples;
  private long nanos;

  private PointsRuns(List<Load> loads, RigSetting setting) {
    this.loads = loads;
    double inTheWindow = WINDOW_NANOS / 1e9 * setting.nominalRate().hertz();
    this.usualSamples = (int) Math.max(2, Math.min(MOST_SAMPLES, Math.round(inTheWindow)));
  }

  /**
   * The readings of {@code file}.
   *
   * @param loads loads that were used, matched by their nominal mass; if none are named, each row
   *     states its own with {@code u_load}
   */
  static CalibrationData read(String file, List<Load> loads, RigSetting setting) {
    CsvTable table = CsvTable.read(file, List.of("load", "reading"));
    Map<Integer, List<CsvTable.Row>> byRun = new TreeMap<>();
    List<CsvTable.Row> resting = new ArrayList<>();
    for (CsvTable.Row row : table.rows()) {
      if (PointsFile.isHold(row)) {
        resting.add(row);
      } else {
        byRun.computeIfAbsent(PointsFile.run(row), n -> new ArrayList<>()).add(row);
      }
    }
    PointsFile.requireTwoLoads(
        table.rows().stream().filter(row -> !PointsFile.isHold(row)).toList());
    PointsRuns runs = new PointsRuns(loads, setting);
    return Refusal.ifNotAccepted(
        () ->
            new CalibrationData(
                setting, byRun.values().stream().map(runs::run).toList(), runs.hold(resting)),
        why -> Refusal.badInput(table.name() + ": " + why + "; nothing is saved"));
  }

  private Optional<CalibrationData.CreepHold> hold(List<CsvTable.Row> rows) {
    if (rows.isEmpty()) {
      return Optional.empty();
    }
    Load load = load(rows.get(0));
    List<HeldReading> readings = new ArrayList<>();
    long began = nanos;
    for (CsvTable.Row row : rows) {
      if (!load(row).equals(load)) {
        throw row.refusal(
            "the load held is " + row.text("load") + " g, the row before holds " + load.name(),
            "hold one load, and list its readings in order of time");
      }
      nanos = began + Math.round(seconds(row) * 1e9);
      if (!readings.isEmpty() && nanos <= readings.get(readings.size() - 1).fromNanos()) {
        throw row.refusal(
            "seconds " + row.text("seconds") + " does not come after the row before",
            "list the hold in order of time");
      }
      readings.add(reading(row, nanos));
    }
    return Optional.of(new CalibrationData.CreepHold(load, readings));
  }

  private static double seconds(CsvTable.Row row) {
    double seconds = row.required("seconds");
    if (!(seconds >= 0 && seconds <= LONGEST_HOLD_SECONDS)) {
      throw row.refusal(
          "seconds " + row.text("seconds") + " is outside 0 to 86400",
          "give the seconds since the load was put on");
    }
    return seconds;
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
    return held(0, 0, usualSamples);
  }

  private HeldReading like(HeldReading zero) {
    return held(zero.meanCounts(), zero.sdCounts(), zero.samples());
  }

  private HeldReading held(double counts, double sdCounts, int samples) {
    nanos += STEP_NANOS;
    return new HeldReading(counts, sdCounts, samples, nanos, nanos + WINDOW_NANOS);
  }

  private HeldReading held(CsvTable.Row row) {
    nanos += STEP_NANOS;
    return reading(row, nanos);
  }

  private HeldReading reading(CsvTable.Row row, long fromNanos) {
    return Refusal.ifNotAccepted(
        () ->
            new HeldReading(
                row.required("reading"),
                sd(row),
                samples(row),
                fromNanos,
                fromNanos + WINDOW_NANOS),
        why -> row.refusal(why, "correct the line or take it out"));
  }

  private static double sd(CsvTable.Row row) {
    double sd = row.number("sd").orElse(0);
    if (!(sd >= 0)) {
      throw row.refusal(
          "sd " + row.text("sd") + " is negative", "a standard deviation is 0 counts or more");
    }
    return sd;
  }

  /** Samples behind a mean; as many as two seconds hold if the row does not say. */
  private int samples(CsvTable.Row row) {
    double samples = row.number("samples").orElse(usualSamples);
    if (!(samples >= 2 && samples <= MOST_SAMPLES && samples == Math.rint(samples))) {
      throw row.refusal(
          "samples " + row.text("samples") + " is not a whole number from 2 to 1000000",
          "give how many samples the reading is the mean of, or leave it empty");
    }
    return (int) samples;
  }

  private CalibrationRun.Loaded loaded(CsvTable.Row row) {
    return new CalibrationRun.Loaded(load(row), PointsFile.direction(row), held(row));
  }

  private Load load(CsvTable.Row row) {
    double grams = row.required("load");
    if (loads.isEmpty()) {
      return Load.of(stated(row, grams));
    }
    return loads.stream()
        .filter(load -> Math.abs(load.nominalGrams() / grams - 1) < SAME_MASS)
        .findFirst()
        .orElseThrow(
            () ->
                row.refusal(
                    "no mass of " + row.text("load") + " g in the mass set",
                    "add it to the set, name the masses hung at once with --load, or correct the"
                        + " line"));
  }

  private static ReferenceMass stated(CsvTable.Row row, double grams) {
    double uncertaintyGrams =
        row.number("u_load")
            .orElseThrow(
                () ->
                    row.refusal(
                        "the load's uncertainty is not known",
                        "name the masses with --masses, or fill in u_load (g)"));
    if (!(uncertaintyGrams >= 0)) {
      throw row.refusal(
          "u_load " + row.text("u_load") + " is negative", "a standard uncertainty is 0 g or more");
    }
    return Refusal.ifNotAccepted(
        () ->
            ReferenceMass.stated(
                row.text("load") + " g",
                Mass.ofGrams(grams),
                Mass.ofGrams(uncertaintyGrams),
                ReferenceMass.CONVENTIONAL_DENSITY),
        why -> row.refusal(why, "correct the line or take it out"));
  }
}
