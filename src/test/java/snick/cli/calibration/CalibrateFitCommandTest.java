package snick.cli.calibration;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snick.cli.Ran;
import snick.cli.terminal.ExitCode;

class CalibrateFitCommandTest {
  private static final Percentage RELATIVE_1E_10 = Percentage.withPercentage(1e-8);

  @TempDir private Path folder;

  private static List<NamedCsvRecord> resource(String name) throws IOException {
    try (CsvReader<NamedCsvRecord> csv =
        CsvReader.builder()
            .ofNamedCsvRecord(
                new InputStreamReader(
                    CalibrateFitCommandTest.class.getResourceAsStream("/snick/force/" + name),
                    StandardCharsets.UTF_8))) {
      return csv.stream().toList();
    }
  }

  private static double certified(String dataset, String quantity) throws IOException {
    return resource("strd_regression_certified.csv").stream()
        .filter(r -> r.getField("dataset").equals(dataset))
        .filter(r -> r.getField("quantity").equals(quantity))
        .mapToDouble(r -> Double.parseDouble(r.getField("certified")))
        .findFirst()
        .orElseThrow();
  }

  private String points(String dataset) throws IOException {
    List<String> lines = new ArrayList<>(List.of("load,reading"));
    for (NamedCsvRecord row : resource("strd_" + dataset + ".csv")) {
      lines.add(row.getField("x") + "," + row.getField("y"));
    }
    return file(dataset + ".csv", String.join("\n", lines));
  }

  private String file(String name, String text) throws IOException {
    Path file = folder.resolve(name);
    Files.writeString(file, text);
    return file.toString();
  }

  /** Certified values of NIST StRD linear regression, sets Norris, Pontius, NoInt1, NoInt2. */
  @ParameterizedTest
  @CsvSource({
    "norris, 1, 0, 34",
    "pontius, 2, 0, 37",
    "noint1, 1, 1, 10",
    "noint2, 1, 1, 2",
  })
  void reachesTheCertifiedValues(String dataset, int degree, int lowest, int freedom)
      throws IOException {
    List<String> command =
        new ArrayList<>(List.of("calibrate", "fit", points(dataset), "--load-unit", "N"));
    command.addAll(List.of("--degree", "" + degree, "--no-corrections", "--json"));
    if (lowest == 1) {
      command.add("--through-origin");
    }
    Map<String, Object> fit = Ran.command(command.toArray(String[]::new)).json();
    for (int i = lowest; i <= degree; i++) {
      double error = certified(dataset, "sb" + i);
      assertThat(Ran.numbers(fit, "coefficients")[i])
          .isCloseTo(certified(dataset, "b" + i), RELATIVE_1E_10);
      assertThat(Ran.numbers(fit, "standard_errors")[i]).isCloseTo(error, RELATIVE_1E_10);
      List<?> row = (List<?>) ((List<?>) fit.get("covariance")).get(i);
      assertThat(Ran.number(row.get(i))).isCloseTo(error * error, RELATIVE_1E_10);
    }
    assertThat(Ran.number(fit.get("residual_sd")))
        .isCloseTo(certified(dataset, "s"), RELATIVE_1E_10);
    assertThat(Ran.number(fit.get("r_squared")))
        .isCloseTo(certified(dataset, "r2"), RELATIVE_1E_10);
    assertThat(Ran.number(fit.get("degrees_of_freedom"))).isEqualTo(freedom);
  }

  /** NIST StRD Pontius is a load-cell calibration: R² of the straight line hides the curve. */
  @Test
  void choosesDegreeTwoForPontiusByLackOfFit() throws IOException {
    String points = points("pontius");
    Map<String, Object> line =
        Ran.command("calibrate", "fit", points, "--load-unit", "N", "--degree", "1", "--json")
            .json();
    assertThat(Ran.number(line.get("r_squared"))).isGreaterThan(0.99998);
    assertThat(Ran.number(Ran.object(line, "lack_of_fit").get("p_value"))).isLessThan(1e-6);
    Map<String, Object> chosen =
        Ran.command("calibrate", "fit", points, "--load-unit", "N", "--json").json();
    assertThat(Ran.number(chosen.get("degree"))).isEqualTo(2);
    assertThat((String) chosen.get("degree_reason")).contains("degree 2 better");
  }

  /** F = m·g·(1 − 1.2/8000) for a conventional mass in standard air (OIML D 28). */
  @Test
  void givesTheForceFormOfMasses() throws IOException {
    String points = file("m.csv", "load,reading\n100,1000\n200,2000.5\n300,2999.5\n");
    Map<String, Object> fit =
        Ran.command("calibrate", "fit", points, "--degree", "1", "--gravity", "9.81", "--json")
            .json();
    double perGram = Ran.numbers(fit, "coefficients")[1];
    assertThat(Ran.numbers(Ran.object(fit, "force"), "coefficients")[1])
        .isCloseTo(perGram / (9.81e-3 * (1 - 1.2 / 8000)), within(1e-6));
    Map<String, Object> asGiven =
        Ran.command("calibrate", "fit", points, "--degree", "1", "--no-corrections", "--json")
            .json();
    assertThat(asGiven).doesNotContainKey("force");
    assertThat(Ran.numbers(asGiven, "coefficients")[1]).isEqualTo(perGram);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "load,value\\n1,2                            | line 1: no column 'reading'",
        "load,reading\\n1,2\\n2,four\\n3,6           | line 3: reading 'four' is not a number",
        "load,reading\\n1,2\\n2,NaN                  | line 3: reading 'NaN' is not a number",
        "load,reading\\n100,2\\n100,3                | line 3: load 100 is the only one in 2 rows",
        "load,reading,u_load\\n1,2,-1\\n2,3,0        | line 2: standard uncertainty of load -1.0",
        "load,reading\\n1,2,5                        | line 2: 3 fields under 2 heads",
        "load,reading\\n1                            | line 2: 1 fields under 2 heads",
        "load,reading\\n1,                           | line 2: reading is empty",
        "load,reading,direction\\n1,2,sideways       | line 2: direction 'sideways'",
        "load,reading,run\\n1,2,0.5                  | line 2: run 0.5 is not a whole number",
        "load,reading                                | no rows below a header",
        "load,reading,load\\n1,2,3                   | duplicate fields",
        "load,reading\\n1,1e999\\n2,4                | line 2: load 1.0, reading Infinity",
      })
  void namesFileLineValueAndRemedy(String text, String complaint) throws IOException {
    String file = file("bad.csv", text.replace("\\n", "\n"));
    Ran ran = Ran.command("calibrate", "fit", file, "--json");
    assertThat(ran.exit()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.out()).isEmpty();
    assertThat(ran.err()).contains("bad.csv").contains(complaint).contains(";");
  }

  @Test
  void refusesACurveThatTurnsRound() throws IOException {
    String file = file("turn.csv", "load,reading\n1,1\n2,4\n3,5\n4,4\n5,1.5\n");
    Ran ran = Ran.command("calibrate", "fit", file, "--degree", "2");
    assertThat(ran.exit()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.err()).contains("turns round").contains("lower --degree");
  }

  @Test
  void refusesAPlaceThatCannotBe() throws IOException {
    String file = file("good.csv", "load,reading\n1,1\n2,2\n3,3.1\n");
    Ran ran = Ran.command("calibrate", "fit", file, "--latitude", "95");
    assertThat(ran.exit()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.err()).contains("latitude 95.0 ° is outside -90 to 90");
  }

  @Test
  void readsTextWithAByteOrderMarkAndRefusesOtherEncodings() throws IOException {
    assertThat(
            Ran.command("calibrate", "fit", file("a.csv", "\ufeffload,reading\n1,1\n2,2\n3,3.1"))
                .exit())
        .isEqualTo(ExitCode.OK);
    Path latin = folder.resolve("latin.csv");
    Files.write(latin, "load,reading\n1,\u00e9\n".getBytes(StandardCharsets.ISO_8859_1));
    Ran ran = Ran.command("calibrate", "fit", latin.toString());
    assertThat(ran.exit()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.err()).contains("cannot be read as UTF-8 text");
  }
}
