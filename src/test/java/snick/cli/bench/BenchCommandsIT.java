package snick.cli.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snick.cli.Ran;
import snick.cli.terminal.ExitCode;
import snick.virtualrig.Fault;
import snick.virtualrig.FaultyRig;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.line.PseudoTerminal;
import snick.virtualrig.settings.RigSettings;

/** Check masses, cut threads and rig checks on the virtual rig, each on a pseudo-terminal. */
class BenchCommandsIT {
  private static final String DEVICE = "51a0000000000001";
  private static final String SPEED = "100";

  @TempDir private Path folder;
  private String data;

  @BeforeEach
  void place() {
    data = folder.resolve("data").toString();
  }

  private void line(double countsPerGramForce) {
    Ran ran =
        Ran.command(
            "calibrate",
            "line",
            "--data",
            data,
            "--rig",
            DEVICE,
            "--rate",
            "320",
            "--zero",
            "0",
            "--span",
            "" + 500 * countsPerGramForce,
            "--span-gf",
            "500",
            "--u-span",
            "60");
    assertThat(ran.exit()).as(ran.err()).isZero();
  }

  private Ran verify(String... more) {
    String[] command = {
      "verify",
      "--virtual",
      "--speed",
      SPEED,
      "--data",
      data,
      "--gravity",
      "9.81",
      "--mass",
      "200g:M1"
    };
    String[] all = Arrays.copyOf(command, command.length + more.length);
    System.arraycopy(more, 0, all, command.length, more.length);
    return Ran.command(all);
  }

  @Test
  void theVirtualRigIsCalibratedOutOfTheBoxAndVerified() throws IOException {
    Ran calibrated =
        Ran.command("calibrate", "--virtual", "--speed", SPEED, "--data", data, "--hold", "30");
    assertThat(calibrated.exit()).as(calibrated.err()).isZero();
    assertThat(calibrated.out())
        .contains("Run 3 of 3 is complete")
        .contains("In-house record, not an accredited certificate");
    Ran checked = verify();
    assertThat(checked.exit()).as(checked.err()).isZero();
    assertThat(checked.out()).contains("within limits");
  }

  /** The virtual cell carries the whole frame: the place makes no difference beyond noise. */
  @Test
  void oneMassAtThreePlacesIsReadKeptAndKnownToTheDoctor() throws IOException {
    Ran place =
        Ran.command(
            "verify",
            "place",
            "--virtual",
            "--speed",
            SPEED,
            "--data",
            data,
            "--mass",
            "100g:M1",
            "--json");
    assertThat(place.exit()).as(place.err()).isZero();
    assertThat((List<?>) place.json().get("points")).hasSize(3);
    assertThat((double) place.json().get("largest")).isLessThan(0.005);
    assertThat(place.json()).containsEntry("within", true).containsEntry("mass", "100 g M1");
    Ran doctor =
        Ran.command(
            "doctor", "--virtual", "--speed", SPEED, "--data", data, "--seconds", "10", "--json");
    assertThat(doctor.out().lines().filter(l -> l.contains("\"ring\"")))
        .singleElement()
        .asString()
        .contains("rings at 45.0 Hz", "damping ratio 0.030", "320 samples/s shows it");
    assertThat(doctor.out().lines().filter(l -> l.contains("\"place\"")))
        .singleElement()
        .asString()
        .contains("% by place", "pass");
  }

  @Test
  void aCheckMassOutOfLimitsIsSaidAndKept() throws IOException {
    line(437.25 * 1.01);
    Ran out = verify();
    assertThat(out.exit()).isEqualTo(ExitCode.NOT_PASSED);
    assertThat(out.out()).contains("OUT OF LIMITS").contains("Check the mass");
    verify();
    Path picture = folder.resolve("chart.svg");
    assertThat(verify("--chart", picture.toString()).out()).contains("OUT OF LIMIT");
    assertThat(Files.readString(picture)).contains("<svg");
    assertThat(Ran.command("verify", "chart", "--data", data, "--json").out().lines()).hasSize(3);
    line(437.25);
    assertThat(verify().exit()).isZero();
  }

  /**
   * The model's truth: 200 g at 9.81 m/s² in air, less buoyancy, on a chain with 437.25 counts/gf.
   */
  @Test
  void aCutThreadGivesTheKnownForceBack() throws IOException {
    line(437.25);
    Ran ran =
        Ran.command(
            "verify",
            "dynamic",
            "--virtual",
            "--speed",
            SPEED,
            "--data",
            data,
            "--gravity",
            "9.81",
            "--mass",
            "200g:M1",
            "--json");
    assertThat(ran.exit()).as(ran.err()).isZero();
    Map<String, Object> check = ran.json();
    double truth = 0.2 * 9.81 * (1 - 1.2 / 8000);
    assertThat(Ran.number(check.get("estimated_n")))
        .isCloseTo(truth, Percentage.withPercentage(0.3));
    assertThat(Ran.number(check.get("step_counts")))
        .isCloseTo(truth / 0.00980665 * 437.25, Percentage.withPercentage(0.1));
    for (String name : List.of("cut_to_equal_area_ms", "fall_ms", "ring_hz", "damping_ratio")) {
      assertThat(Ran.number(check.get(name)))
          .as(name)
          .isCloseTo(
              Ran.number(check.get("true_" + name)),
              within(4 * Ran.number(check.get("u_" + name))));
    }
    assertThat(Ran.number(check.get("true_ring_hz"))).isCloseTo(45, within(0.1));
    assertThat(check.get("agrees")).isEqualTo(true);
  }

  private Map<String, String> grades(ServedRig rig, int expectedExit) {
    Ran ran = Ran.command("doctor", rig.port(), "--seconds", "6", "--data", data, "--json");
    assertThat(ran.exit()).as(ran.out() + ran.err()).isEqualTo(expectedExit);
    return ran.out()
        .lines()
        .map(BenchCommandsIT::object)
        .collect(
            Collectors.toMap(
                o -> (String) o.get("check"), o -> (String) o.get("grade"), (a, b) -> b));
  }

  private static Map<String, Object> object(String line) {
    try {
      return JSON.std.mapFrom(line);
    } catch (IOException e) {
      throw new AssertionError(line, e);
    }
  }

  /** 30 Hz at 320 samples/s, as the virtual rig was asked to ring. */
  @Test
  void aFlickTellsResonanceAndDamping() {
    Ran ran =
        Ran.command(
            "doctor",
            "--virtual",
            "--speed",
            "20",
            "--seconds",
            "5",
            "--flick",
            "--data",
            data,
            "--virtual-rate",
            "320",
            "--resonance",
            "30Hz",
            "--damping",
            "0.02");
    assertThat(ran.out()).as(ran.err()).contains("rings at 30.0 Hz").contains("rubber foot");
  }

  private FaultyRig serve(double speed) throws IOException {
    return FaultyRig.serve(
        new VirtualRig(RigSettings.USUAL, 5),
        PseudoTerminal.publishedAs(folder.resolve("rig")),
        Pacer.of(System::nanoTime, speed),
        VirtualRig.WhenFull.WAIT,
        truth -> {});
  }

  @Test
  void aHealthyRigPasses() throws IOException {
    try (ServedRig rig = serve(1)) {
      Map<String, String> grades = grades(rig, ExitCode.OK);
      assertThat(grades).containsEntry("rate", "pass").containsEntry("loss", "pass");
      assertThat(grades).containsKeys("port", "noise", "drift", "stuck", "clock_wire");
    }
  }

  @ParameterizedTest
  @CsvSource({"stuck, stuck", "overrange, overrange", "silence, samples"})
  void aFaultIsFound(String kind, String check) throws IOException {
    Fault fault =
        switch (kind) {
          case "stuck" -> new Fault.Stuck(5);
          case "overrange" -> new Fault.Overrange(5, true);
          default -> new Fault.Silence(1e5);
        };
    try (FaultyRig rig = serve(20)) {
      rig.inject(fault);
      assertThat(grades(rig, ExitCode.NOT_PASSED)).containsEntry(check, "fail");
    }
  }
}
