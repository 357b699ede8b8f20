package snick.force;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import snick.force.fit.DegreeRule;
import snick.force.fit.PointsFit;
import snick.force.mass.Load;
import snick.force.mass.LoadUnit;
import snick.force.mass.MassClass;
import snick.force.mass.ReferenceMass;
import snick.force.mass.WaterDensity;
import snick.force.reading.CalibrationData;
import snick.force.reading.CalibrationRun;
import snick.force.reading.HeldReading;
import snick.quantity.Mass;

/** The files of {@code rig-calibration/} say what the program and the simulated bench say. */
class ExampleRunsTest {
  private static final Path FOLDER = Path.of("rig-calibration");
  private static final List<ReferenceMass> MASSES =
      SimulatedBench.classWeights(MassClass.M1, 20, 50, 100, 200, 500);

  private static List<NamedCsvRecord> rows(String name) throws IOException {
    try (CsvReader<NamedCsvRecord> reader =
        CsvReader.builder().ofNamedCsvRecord(FOLDER.resolve(name), UTF_8)) {
      return reader.stream().toList();
    }
  }

  private static String simulated(long seed, double bend) {
    StringBuilder text = new StringBuilder("load,reading,run,direction,u_load\n");
    CalibrationData data = new SimulatedBench(seed, MASSES, bend).calibration(3);
    for (int run = 0; run < 3; run++) {
      CalibrationRun one = data.runs().get(run);
      for (CalibrationRun.Loaded loaded : one.loaded()) {
        ReferenceMass mass = loaded.load().masses().get(0);
        text.append(
            String.format(
                Locale.ROOT,
                "%.0f,%.1f,%d,%s,%.5f%n",
                mass.conventionalMass().grams(),
                one.deflectionCounts(loaded, 1),
                run + 1,
                loaded.direction().word(),
                mass.standardUncertainty().grams()));
      }
    }
    return text.toString();
  }

  private static void row(
      StringBuilder text, String load, HeldReading reading, int run, String direction) {
    text.append(
        String.format(
            Locale.ROOT,
            "%s,%.1f,%d,%s,%.1f,%d",
            load,
            reading.meanCounts(),
            run,
            direction,
            reading.sdCounts(),
            reading.samples()));
  }

  private static String grams(Load load) {
    return String.format(Locale.ROOT, "%.0f", load.nominalGrams());
  }

  /** Raw readings with their zeros, 300 g as 200 g and 100 g at once, and a timed hold. */
  private static String raw(long seed) {
    List<ReferenceMass> masses =
        List.of(MASSES.get(2), MASSES.get(3), both(MASSES.get(3), MASSES.get(2)), MASSES.get(4));
    CalibrationData data =
        new SimulatedBench(seed, masses, SimulatedBench.USUAL_BEND).calibration(3);
    StringBuilder text = new StringBuilder("load,reading,run,direction,sd,samples,seconds\n");
    for (int i = 0; i < data.runs().size(); i++) {
      CalibrationRun run = data.runs().get(i);
      row(text, "0", run.zeroBefore(), i + 1, "up");
      text.append(",\n");
      for (CalibrationRun.Loaded loaded : run.loaded()) {
        row(text, grams(loaded.load()), loaded.reading(), i + 1, loaded.direction().word());
        text.append(",\n");
      }
      row(text, "0", run.zeroAfter(), i + 1, "down");
      text.append(",\n");
    }
    CalibrationData.CreepHold hold = data.hold().orElseThrow();
    double began = hold.readings().get(0).fromNanos() / 1e9;
    for (HeldReading reading : hold.readings()) {
      row(text, grams(hold.load()), reading, 3, "hold");
      text.append(String.format(Locale.ROOT, ",%.0f%n", reading.fromNanos() / 1e9 - began + 5));
    }
    return text.toString();
  }

  private static ReferenceMass both(ReferenceMass one, ReferenceMass other) {
    return ReferenceMass.stated(
        "both",
        Mass.ofGrams(one.conventionalMass().grams() + other.conventionalMass().grams()),
        Mass.ofGrams(one.standardUncertainty().grams() + other.standardUncertainty().grams()),
        ReferenceMass.CONVENTIONAL_DENSITY);
  }

  private static PointsFit fit(String name) throws IOException {
    List<PointsFit.Point> points = new ArrayList<>();
    for (NamedCsvRecord row : rows(name)) {
      points.add(
          new PointsFit.Point(
              Table.number(row, "load"),
              Table.number(row, "reading"),
              OptionalDouble.of(Table.number(row, "u_load"))));
    }
    return PointsFit.fit(
        points,
        LoadUnit.GRAM,
        new DegreeRule.Automatic(),
        new PointsFit.Options(true),
        Optional.empty());
  }

  @Test
  void exampleRunsComeFromTheirSeeds() throws IOException {
    assertThat(Files.readString(FOLDER.resolve("example-run-simulated.csv")))
        .isEqualToNormalizingNewlines(simulated(20260101, SimulatedBench.USUAL_BEND));
    assertThat(Files.readString(FOLDER.resolve("example-run-bent-simulated.csv")))
        .isEqualToNormalizingNewlines(simulated(20260102, 10 * SimulatedBench.USUAL_BEND));
    assertThat(Files.readString(FOLDER.resolve("example-run-hold-simulated.csv")))
        .isEqualToNormalizingNewlines(raw(20260103));
  }

  @Test
  void theBentCellNeedsDegreeTwo() throws IOException {
    PointsFit straight = fit("example-run-simulated.csv");
    double perGram = straight.choice().fit().slope(250);
    assertThat(perGram / (SimulatedBench.COUNTS_PER_NEWTON * 9.8088 / 1000))
        .isCloseTo(1, within(2e-3));
    PointsFit bent = fit("example-run-bent-simulated.csv");
    assertThat(bent.choice().fit().form().degree()).isEqualTo(2);
    assertThat(bent.choice().reason()).contains("degree 2 better");
  }

  @Test
  void classLimitsInTheFolderAreTheProgramsOwn() throws IOException {
    List<NamedCsvRecord> rows = rows("class-limits.csv");
    List<Integer> nominalGrams =
        rows.stream().map(row -> (int) Table.number(row, "nominal_g")).toList();
    assertThatThrownBy(() -> MassClass.M1.limit(Mass.ofGrams(3)))
        .hasMessageContaining(nominalGrams.toString());
    for (NamedCsvRecord row : rows) {
      for (MassClass massClass : MassClass.values()) {
        assertThat(massClass.limit(Mass.ofGrams(Table.number(row, "nominal_g"))).grams() * 1000)
            .isCloseTo(Table.number(row, massClass + "_mg"), within(1e-9));
      }
    }
  }

  @Test
  void waterTableIsTheFormulas() throws IOException {
    String text = Files.readString(FOLDER.resolve("home-made-masses.md"));
    for (int celsius = 5; celsius <= 30; celsius += 5) {
      assertThat(text)
          .contains(
              String.format(
                  Locale.ROOT,
                  "| %d | %.3f |",
                  celsius,
                  WaterDensity.kilogramsPerCubicMetre(celsius)));
    }
  }
}
