package snick.cli.calibration;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.jr.ob.JSON;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cli.Jar;
import snick.cli.Live;
import snick.cli.Ran;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.script.Action;
import snick.virtualrig.settings.RigSettings;

/** The jar guides a calibration over a pipe; the virtual rig lives on a pseudo-terminal. */
class CalibrateIT {
  private static final Pattern ASKED = Pattern.compile("Put on (\\d+) g M1");
  private static final double TRUE_COUNTS_PER_NEWTON = 437.25 / 0.00980665;
  private static final double SPEED = 50;

  @TempDir private Path folder;
  private ServedRig rig;

  @BeforeEach
  void serve() throws Exception {
    rig =
        new VirtualRig(RigSettings.USUAL, 3)
            .serve(
                folder.resolve("rig"),
                Pacer.of(System::nanoTime, SPEED),
                VirtualRig.WhenFull.WAIT,
                truth -> {});
  }

  @AfterEach
  void takeAway() {
    rig.close();
  }

  private String data() {
    return folder.resolve("data").toString();
  }

  /**
   * Hangs what is asked for, and says so, until {@code done} is said. On a busy machine the jar may
   * still read what the rig sent before; then it asks again.
   */
  private void obey(Live live, int leastAnswers, String done) throws Exception {
    int answers = 0;
    String line = live.await("press Enter", done);
    for (; !line.contains(done); answers++) {
      Matcher mass = ASKED.matcher(line);
      double grams = mass.find() ? Double.parseDouble(mass.group(1)) : 0;
      rig.perform(Action.Hang.ofGrams(grams)).get(60, TimeUnit.SECONDS);
      live.type("");
      line = live.await("press Enter", done);
    }
    assertThat(answers).isGreaterThanOrEqualTo(leastAnswers);
  }

  private List<Path> unfinished() throws Exception {
    try (Stream<Path> files = Files.list(Path.of(data()))) {
      return files.filter(f -> f.getFileName().toString().startsWith("unfinished")).toList();
    }
  }

  @Test
  void canBeInterruptedAndResumedAndRecoversTheTruth() throws Exception {
    Jar jar = Jar.onThisJava();
    try (Live first =
        jar.start(
            "calibrate",
            rig.port(),
            "--data",
            data(),
            "--runs",
            "2",
            "--hold",
            "0",
            "--gravity",
            "9.81",
            "--mass",
            "100g:M1",
            "--mass",
            "200g:M1",
            "--mass",
            "500g:M1")) {
      obey(first, 1, "Put on 100 g");
      first.type("");
      assertThat(first.await("Not counted")).as("nothing was hung").contains("same_reading_twice");
      first.await("Remedy");
      obey(first, 6, "Run 1 of 2 is complete");
      first.await("press Enter");
      first.type("q");
      assertThat(first.await("Stopped")).contains("1 of 2 runs are complete").contains("--resume");
      assertThat(first.ended()).isEqualTo(1);
    }
    assertThat(unfinished()).hasSize(1);
    assertThat(folder.resolve("data/snick.db")).as("nothing is saved").doesNotExist();
    assertThat(
            jar.run(
                    "calibrate",
                    rig.port(),
                    "--data",
                    data(),
                    "--gravity",
                    "9.81",
                    "--mass",
                    "100g:M1",
                    "--mass",
                    "200g:M1")
                .err())
        .contains("interrupted")
        .contains("--fresh");
    try (Live second = jar.start("calibrate", rig.port(), "--data", data(), "--resume")) {
      second.await("Going on: 1 of 2 runs");
      obey(second, 7, "Saved.");
      assertThat(second.ended()).isZero();
    }
    assertThat(unfinished()).isEmpty();
    requireTruth(JSON.std.mapFrom(jar.run("calibrate", "show", "--json", "--data", data()).out()));
  }

  /** The model's own slope lies within the expanded uncertainty at the top of the range. */
  private static void requireTruth(Map<String, Object> record) {
    double slope = Ran.numbers(Ran.object(record, "curve"), "coefficients")[1];
    List<?> budget = (List<?>) record.get("budget");
    Map<?, ?> top = (Map<?, ?>) budget.get(budget.size() - 1);
    double relative = Ran.number(top.get("expanded_n")) / Ran.number(top.get("force_n"));
    assertThat(relative).isLessThan(0.003);
    assertThat(Math.abs(slope / TRUE_COUNTS_PER_NEWTON - 1)).isLessThan(relative);
  }
}
