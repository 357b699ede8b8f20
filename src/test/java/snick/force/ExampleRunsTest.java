package snick.force;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
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
    assertThat(rows).hasSameSizeAs(MassClass.nominalGrams());
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
