package snick.cli.calibration;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snick.cli.Ran;
import snick.cli.terminal.ExitCode;
import snick.store.KeptPlace;
import snick.store.Store;
import snick.store.record.Evidence;

class CalibrationCommandsTest {
  private static final String RUN = "rig-calibration/example-run-simulated.csv";

  @TempDir private Path folder;
  private String data;

  @BeforeEach
  void place() {
    data = folder.resolve("data").toString();
  }

  private Ran points(String file, String... more) {
    String[] command = {"calibrate", "points", file, "--data", data, "--rig", "51ab", "--json"};
    String[] all = Arrays.copyOf(command, command.length + more.length);
    System.arraycopy(more, 0, all, command.length, more.length);
    return Ran.command(all);
  }

  /** Straight line: F = d/b and back, and the typed-in span is all of the uncertainty, k = 1.96. */
  @Test
  void aLineConvertsBothWaysWithItsInterval() throws IOException {
    String[] line = {
      "calibrate",
      "line",
      "--data",
      data,
      "--rig",
      "51ab",
      "--zero",
      "0",
      "--span",
      "437.25",
      "--span-gf",
      "1",
      "--u-span",
      "0.4",
      "--to-gf",
      "1000"
    };
    assertThat(Ran.command(line).exit()).isZero();
    String[] convert = {"calibrate", "convert", "--data", data, "--json"};
    Map<String, Object> forward = Ran.command(with(convert, "--counts", "43725")).json();
    assertThat((double) forward.get("force_n")).isCloseTo(0.980665, within(1e-12));
    double expanded = 1.959963984540054 * 0.980665 * 0.4 / 437.25;
    assertThat((double) forward.get("force_from_n")).isCloseTo(0.980665 - expanded, within(1e-9));
    assertThat((double) forward.get("force_to_n")).isCloseTo(0.980665 + expanded, within(1e-9));
    Map<String, Object> back = Ran.command(with(convert, "--gf", "100")).json();
    assertThat((double) back.get("counts")).isCloseTo(43725, within(1e-6));
    double counts = 1.959963984540054 * 40;
    assertThat((double) back.get("counts_to")).isCloseTo(43725 + counts, within(1e-3));
    assertThat(Ran.command("calibrate", "convert", "--data", data, "--newtons", "0.980665").out())
        .contains("0.980665 N = 100 gf: 43725 ± 78 counts above zero", "k = 1.96");
    assertThat(Ran.command(with(convert, "--gf", "1001")).err()).contains("outside the calibrated");
    assertThat(Ran.command(with(convert, "--counts", "500000")).json())
        .containsEntry("in_range", false);
  }

  private static String[] with(String[] command, String... more) {
    return Stream.concat(Arrays.stream(command), Arrays.stream(more)).toArray(String[]::new);
  }

  private double placeTerm(Map<String, Object> calibration) {
    return ((List<?>) calibration.get("terms"))
        .stream()
            .map(term -> (Map<?, ?>) term)
            .filter(term -> "place".equals(term.get("source")))
            .mapToDouble(term -> ((Number) term.get("relative")).doubleValue())
            .findFirst()
            .orElseThrow();
  }

  /** The check of place that was kept last is the half-width of the budget's term. */
  @Test
  void theBudgetTakesTheKeptCheckOfPlaceUnlessOneIsTyped() throws IOException {
    String[] latitude = {"--latitude", "48", "--masses", "rig-calibration/mass-set-m1.csv"};
    String[] line = {
      "calibrate",
      "line",
      "--data",
      data,
      "--rig",
      "51ab",
      "--zero",
      "0",
      "--span",
      "437.25",
      "--span-gf",
      "1",
      "--u-span",
      "0.4",
      "--json"
    };
    assertThat(placeTerm(points(RUN, latitude).json())).isZero();
    try (Store store = Store.open(Path.of(data), Clock.systemUTC())) {
      for (String largest : List.of("0.3", "0.004")) {
        store.add(
            new Evidence(
                "51ab",
                KeptPlace.KIND,
                Instant.now(),
                "{\"largest\":" + largest + ",\"limit\":0.005}"));
      }
    }
    assertThat(placeTerm(points(RUN, latitude).json()))
        .isCloseTo(0.004 / Math.sqrt(3), within(1e-12));
    assertThat(placeTerm(points(RUN, with(latitude, "--place-effect", "0.01")).json()))
        .isCloseTo(0.01 / Math.sqrt(3), within(1e-12));
    assertThat(placeTerm(Ran.command(line).json())).isCloseTo(0.004 / Math.sqrt(3), within(1e-12));
    assertThat(placeTerm(Ran.command(with(line, "--place-effect", "0")).json())).isZero();
  }

  /** The curve that was made runs through what it is asked for, there and back. */
  @Test
  void aCurveConvertsThereAndBack() throws IOException {
    assertThat(
            points(RUN, "--latitude", "48", "--masses", "rig-calibration/mass-set-m1.csv").exit())
        .isZero();
    String[] convert = {"calibrate", "convert", "--data", data, "--json"};
    double counts = (double) Ran.command(with(convert, "--newtons", "1.75")).json().get("counts");
    Map<String, Object> there = Ran.command(with(convert, "--counts", "" + counts)).json();
    assertThat((double) there.get("force_n")).isCloseTo(1.75, within(1e-9));
    assertThat((double) there.get("force_to_n")).isGreaterThan(1.75);
  }

  /** A mass errs alike in every run: fit and points say the same of it. */
  @Test
  void fitAndPointsAgreeOnErrorsThatLoadsHaveInCommon() throws IOException {
    StringBuilder rows = new StringBuilder("load,reading,run,direction,u_load\n");
    double[] uncertainties = {0.002, 0.003, 0.009, 0.01};
    for (int run = 1; run <= 3; run++) {
      double[] loads = {20, 50, 100, 200};
      for (int i = 0; i < loads.length; i++) {
        double reading = 437.25 * loads[i] + 3 * ((7 * run + 5 * i) % 4 - 1.5);
        rows.append(
            String.format(
                java.util.Locale.ROOT,
                "%s,%s,%d,up,%s%n",
                loads[i],
                reading,
                run,
                uncertainties[i]));
      }
    }
    Path file = Files.writeString(folder.resolve("common.csv"), rows);
    Map<String, Object> points =
        points(file.toString(), "--gravity", "9.80665", "--degree", "1").json();
    Map<String, Object> fit =
        Ran.command(
                "calibrate",
                "fit",
                file.toString(),
                "--through-origin",
                "--degree",
                "1",
                "--gravity",
                "9.80665",
                "--json")
            .json();
    double ofFit = (double) fit.get("relative_u_by_loads");
    double ofPoints =
        ((List<?>) points.get("terms"))
            .stream()
                .map(term -> (Map<?, ?>) term)
                .filter(term -> "reference_masses".equals(term.get("source")))
                .mapToDouble(term -> ((Number) term.get("relative")).doubleValue())
                .findFirst()
                .orElseThrow();
    assertThat(ofFit).isCloseTo(ofPoints, within(1e-9)).isBetween(4e-5, 1e-4);
    assertThat(Ran.numbers(Ran.object(fit, "force"), "coefficients")[1])
        .isCloseTo(Ran.numbers(Ran.object(points, "curve"), "coefficients")[1], within(0.05));
  }

  /** The simulated bench of the example has 437.25 counts/gf and g at 48°, 300 m. */
  @Test
  void aCalibrationFromAFileIsSavedAndCanBeReadAgain() throws IOException {
    Ran made =
        points(
            RUN,
            "--latitude",
            "48",
            "--height",
            "300",
            "--masses",
            "rig-calibration/mass-set-m1.csv");
    assertThat(made.exit()).as(made.err()).isZero();
    String id = (String) made.json().get("id");
    assertThat(Ran.numbers(Ran.object(made.json(), "curve"), "coefficients")[1])
        .isCloseTo(437.25 / 0.00980665, within(50.0));
    Map<String, Object> shown =
        Ran.command("calibrate", "show", id, "--data", data, "--json").json();
    assertThat(shown).isEqualTo(made.json());
    assertThat((List<?>) shown.get("points")).hasSize(27);
    assertThat((List<?>) shown.get("remarks")).noneMatch(r -> r.toString().contains("version"));
    assertThat(Ran.command("calibrate", "list", "--data", data).out())
        .contains(id)
        .contains("in use, valid");
  }

  @Test
  void theRecordForPeopleNeedsNothingFromElsewhere() throws IOException {
    assertThat(points(RUN, "--gravity", "9.807").exit()).isZero();
    Path page = folder.resolve("record.html");
    Ran ran = Ran.command("calibrate", "show", "--data", data, "--html", page.toString());
    assertThat(ran.exit()).as(ran.err()).isZero();
    String html = Files.readString(page);
    assertThat(html)
        .contains("In-house record, not an accredited certificate.")
        .contains("<svg")
        .contains("role=\"img\"")
        .contains("Uncertainty budget")
        .contains("effective degrees of freedom")
        .contains("in the terms of ISO 376")
        .doesNotContain("<script")
        .doesNotContain("src=")
        .doesNotContain("url(http");
    assertThat(html.split("<figure>")).as("residuals and budget are drawn").hasSize(3);
  }

  private Ran held(String file) {
    return points(
        file,
        "--gravity",
        "9.807",
        "--masses",
        "rig-calibration/mass-set-m1.csv",
        "--load",
        "100g",
        "--load",
        "200 g",
        "--load",
        "200g+100g",
        "--load",
        "500g:M1");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "load,reading,u_load\\n100,1000,1\\n100,1001,1  | line 3: load 100 is the only one in 2 rows",
        "load,reading,u_load\\n100,1000,-1\\n200,2000,1 | line 2: u_load -1 is negative",
        "load,reading,u_load\\n100,1000,1\\n200,2000    | line 3: 2 fields under 3 heads",
        "load,reading,u_load,sd\\n1,2,3,-4\\n5,6,7,8    | line 2: sd -4 is negative",
        "load,reading,u_load,samples\\n1,2,3,1\\n5,6,7,8 | line 2: samples 1 is not a whole number",
        "load,reading,u_load,run\\n1,2,3,0\\n5,6,7,8     | line 2: run 0 is not a whole number",
      })
  void readingsThatCannotBeAreRefused(String text, String complaint) throws IOException {
    Path file = folder.resolve("readings.csv");
    Files.writeString(file, text.replace("\\n", "\n"));
    Ran ran = points(file.toString(), "--gravity", "9.807");
    assertThat(ran.exit()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.err()).contains(file.toString()).contains(complaint).contains(";");
    assertThat(folder.resolve("data")).as("nothing is saved").doesNotExist();
  }

  /** Class limits of R 111-1: M1 has ±10 mg at 200 g and ±5 mg at 100 g; added, over √3. */
  @Test
  void aFileCanHoldSeveralMassesAtOnceAndATimedHold() throws IOException {
    Ran made = held("rig-calibration/example-run-hold-simulated.csv");
    assertThat(made.exit()).as(made.err()).isZero();
    assertThat(made.out()).contains("200 g + 100 g").contains("\"creep\"");
    Map<String, Object> fit =
        Ran.command(
                "calibrate",
                "fit",
                "rig-calibration/example-run-hold-simulated.csv",
                "--no-corrections",
                "--json")
            .json();
    assertThat(fit.get("degrees_of_freedom")).as("holds are no points of the curve").isEqualTo(25);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "500,1000,hold,     | seconds is empty",
        "500,1000,hold,-1   | line 5: seconds -1 is outside 0 to 86400",
        "200,1000,hold,9    | line 5: the load held is 200 g, the row before holds 500 g",
        "500,1000,hold,5    | line 5: seconds 5 does not come after",
        "500,1000,holding,9 | line 5: direction 'holding'",
      })
  void aHoldThatCannotBeIsRefused(String row, String complaint) throws IOException {
    Path file = folder.resolve("hold.csv");
    Files.writeString(
        file,
        "load,reading,direction,seconds\n200,400,up,\n500,1000,up,\n500,999,hold,5\n" + row + "\n");
    Ran ran = held(file.toString());
    assertThat(ran.exit()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.err()).contains(complaint).contains(";");
    assertThat(folder.resolve("data")).as("nothing is saved").doesNotExist();
  }

  @Test
  void aMassOfASetHangsOnce() {
    Ran ran =
        Ran.command(
            "calibrate", "--virtual", "--data", data, "--mass", "100g:M1", "--load", "100g+100g");
    assertThat(ran.exit()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.err()).contains("no mass '100g' is left among 100 g M1").contains("--mass");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "name,mass_g,class\\na,100,M9                   | line 2: mass class 'M9' is unknown",
        "name,mass_g,class\\na,101,M1                   | line 2: there is no 101.0 g in class M1",
        "name,mass_g,class,U_mg\\na,100,M1,3            | line 2: 2 of class, U_mg, u_mg",
        "name,mass_g\\na,100                            | line 2: 0 of class, U_mg, u_mg",
        "name,mass_g,u_mg\\na,100,-3                    | line 2: mass",
        "name,mass_g,u_mg,density_kg_m3\\na,100,3,1     | line 2: density of mass 1.0",
        "name,mass_g,u_mg\\na,heavy,3                   | line 2: mass_g 'heavy' is not a number",
        "name,mass_g,class\\na,20,M1                    | no mass of 50 g in the mass set",
      })
  void aMassSetThatCannotBeIsRefused(String text, String complaint) throws IOException {
    Path set = folder.resolve("set.csv");
    Files.writeString(set, text.replace("\\n", "\n"));
    Ran ran = points(RUN, "--gravity", "9.807", "--masses", set.toString());
    assertThat(ran.exit()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.err()).contains(complaint).contains(";");
    assertThat(folder.resolve("data")).as("nothing is saved").doesNotExist();
  }

  @Test
  void aMassInOneWordMustNameItsUncertainty() {
    for (String word : List.of("100", "100g", "100g:Z1", "100lb:M1", "100g:u=-1g", "1e3g:M1")) {
      Ran ran = Ran.command("calibrate", "--virtual", "--data", data, "--mass", word);
      assertThat(ran.exit()).as(word).isEqualTo(ExitCode.BAD_INPUT);
      assertThat(ran.err()).contains("--mass " + word);
    }
  }

  @Test
  void gravityIsAskedForAndNeverAssumed() {
    Ran ran = points(RUN);
    assertThat(ran.exit()).isEqualTo(ExitCode.USAGE);
    assertThat(ran.err()).contains("--latitude");
  }

  @Test
  void aPlaceLeftOpenIsNoMeasuredGravity() throws IOException {
    String[] masses = {"--masses", "rig-calibration/mass-set-m1.csv"};
    Ran ran = points(RUN, "--anywhere", masses[0], masses[1]);
    assertThat(ran.exit()).as(ran.err()).isZero();
    String id = (String) ran.json().get("id");
    assertThat(Ran.command("calibrate", "show", id, "--data", data).out())
        .contains("place not stated: anywhere on Earth")
        .doesNotContain("measured");
    Ran both = points(RUN, "--anywhere", "--latitude", "48", masses[0], masses[1]);
    assertThat(both.exit()).isEqualTo(ExitCode.USAGE);
    assertThat(both.err()).contains("--anywhere");
  }

  /** The store's own history: what was derived before stays beside what is derived now. */
  @Test
  void derivingAgainKeepsEveryEarlierForce() throws IOException {
    String capture = "demo-data/kitchen-knife.capture";
    Ran run = Ran.command("run", capture, "--data", data, "--no-http", "--counts-per-gf", "430");
    assertThat(run.exit()).as(run.err()).isZero();
    String device = "51a0000000000001";
    Ran line =
        Ran.command(
            "calibrate",
            "line",
            "--data",
            data,
            "--rig",
            device,
            "--zero",
            "0",
            "--span",
            "437.25",
            "--span-gf",
            "1",
            "--u-span",
            "0.4",
            "--to-gf",
            "1000");
    assertThat(line.exit()).as(line.err()).isZero();
    Ran diff = Ran.command("rederive", "--diff", "--data", data, "--json");
    assertThat(diff.out().lines()).hasSize(18);
    assertThat(forces()).hasSize(1);
    Ran done = Ran.command("rederive", "--data", data);
    assertThat(done.out())
        .contains("18 cuts derived again")
        .contains("largest change of force 1.658 %");
    assertThat(forces()).hasSize(2);
    assertThat(Ran.command("rederive", "--data", data).out()).contains("0 changed");
    assertThat(Ran.command("cuts", "show", "1", "--data", data).out())
        .contains("peak estimate")
        .contains("expanded, 95 %");
    Ran stranger =
        Ran.command(
            "calibrate",
            "line",
            "--data",
            data,
            "--rig",
            "other",
            "--zero",
            "0",
            "--span",
            "437",
            "--span-gf",
            "1",
            "--u-span",
            "0.4",
            "--json");
    String id = (String) stranger.json().get("id");
    assertThat(Ran.command("rederive", "--calibration", id, "--data", data).out())
        .contains("0 changed")
        .contains("18 cuts get no force: device was other at calibration");
  }

  private List<String> forces() {
    return Ran.command("cuts", "show", "1", "--data", data)
        .out()
        .lines()
        .filter(line -> line.strip().startsWith("force "))
        .toList();
  }
}
