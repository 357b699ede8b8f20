package snick.firmware;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.jr.ob.JSON;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import snick.frame.StreamDecoder;
import snick.frame.message.SampleBatch;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.RigSettings;

/** The shipped jar with the firmware in the emulator: records, finds the cuts, calibrates. */
@NeedsTools({Tool.GCC, Tool.MAKE, Tool.AVR_GCC, Tool.SIMAVR})
@Timeout(120)
class JarOnFirmwareIT {
  /** Counts for each gram-force of the virtual rig. */
  private static final String COUNTS_PER_GF = "437.25";

  private static final double COUNTS_PER_NEWTON = 437.25 / 9.80665e-3;
  private static final int ZERO_COUNTS = 84_210;

  /** What the guide asks for; the group is the mass in grams, absent for none. */
  private static final Pattern ASKED =
      Pattern.compile("(?:Put on (\\d+) g .*|Take everything off.*) press Enter");

  @TempDir private Path folder;

  @BeforeAll
  static void build() throws Exception {
    Make.REFERENCE.run("all", "emulator");
  }

  /** The virtual rig's model as a script: one code for each conversion; what truly happened. */
  private static List<String> script(List<TrueCut> truths) {
    List<String> script = new ArrayList<>();
    StreamDecoder decoder = StreamDecoder.ofAnyForm(StreamDecoder.Start.AT_BEGINNING);
    SilentSink codes =
        new SilentSink() {
          @Override
          public void samples(SampleBatch batch) {
            IntStream.range(0, batch.size())
                .forEach(i -> script.add(Integer.toString(batch.counts(i))));
          }
        };
    new VirtualRig(RigSettings.USUAL, 11)
        .render(
            Script.of(
                new Action.Rest(8),
                Action.Cut.ofGramForce(150, 60),
                new Action.Rest(5),
                Action.Cut.ofGramForce(90, 40),
                new Action.Rest(5),
                Action.Cut.ofGramForce(220, 80),
                new Action.Rest(8)),
            (nanos, bytes, length) -> decoder.accept(bytes, 0, length, codes),
            truths::add);
    return script;
  }

  @Test
  void recordsAndFindsTheCuts() throws Exception {
    List<TrueCut> truths = new ArrayList<>();
    List<String> script = script(truths);
    List<Map<String, Object>> cuts = new ArrayList<>();
    try (EmulatedBoard board =
            EmulatedBoard.start(
                Make.REFERENCE,
                folder,
                script,
                "--id",
                EmulatedBoard.ID,
                "--wait",
                "--speed",
                "10");
        Jar jar =
            Jar.run(
                folder,
                "run",
                board.link().toString(),
                "--data",
                folder.resolve("data").toString(),
                "--no-http",
                "--json",
                "--counts-per-gf",
                COUNTS_PER_GF)) {
      jar.lines().limit(truths.size()).forEach(line -> cuts.add(parse(line)));
      jar.interrupt();
      jar.exitStatus();
      assertThat(board.stop().lostBytes()).isZero();
    }
    assertThat(cuts)
        .as("jar said: %s", Files.readString(folder.resolve("jar-stderr.txt")))
        .hasSize(3);
    for (int i = 0; i < cuts.size(); i++) {
      double trueGramForce = truths.get(i).breakForce().gramForce();
      assertThat(cuts.get(i)).containsEntry("outcome", "severed");
      assertThat(((Number) cuts.get(i).get("force_gf")).doubleValue())
          .as("cut %d", i)
          .isCloseTo(trueGramForce, within(0.015 * trueGramForce));
    }
  }

  /**
   * Masses are hung as the guide asks for them; the curve is that of the cell: 437.25 counts for
   * each gram-force, here per newton.
   */
  @Test
  void calibrates() throws Exception {
    try (EmulatedBoard board =
            EmulatedBoard.start(
                Make.REFERENCE,
                folder,
                List.of(),
                "--id",
                EmulatedBoard.ID,
                "--wait",
                "--speed",
                "20");
        Jar jar =
            Jar.talkingTo(
                folder,
                ("calibrate " + board.link() + " --mass 100g:M1 --mass 200g:M1 --mass 500g:M1")
                    .concat(" --gravity 9.81 --runs 1 --hold 0 --json --data " + folder)
                    .split(" "))) {
      board.restAt(ZERO_COUNTS);
      jar.talk().forEach(line -> obey(line, board, jar));
      Map<String, Object> made = parse(jar.lines().findFirst().orElseThrow());
      assertThat(jar.exitStatus()).isZero();
      assertThat(made.toString())
          .as("device and gain")
          .contains("device=" + EmulatedBoard.ID)
          .contains("gain=128");
      List<?> coefficients = (List<?>) ((Map<?, ?>) made.get("curve")).get("coefficients");
      assertThat(coefficients).hasSize(2);
      assertThat(((Number) coefficients.get(1)).doubleValue())
          .isCloseTo(COUNTS_PER_NEWTON, within(1e-4 * COUNTS_PER_NEWTON));
    }
  }

  private static void obey(String line, EmulatedBoard board, Jar jar) {
    Matcher asked = ASKED.matcher(line);
    if (asked.find()) {
      String grams = asked.group(1);
      board.restAt(grams == null ? ZERO_COUNTS : underLoad(Integer.parseInt(grams)));
      jar.enter();
    }
  }

  /** Force of a hanging mass in air of 1.2 kg/m³, its mass conventional: OIML D 28. */
  private static int underLoad(int grams) {
    double newtons = grams / 1000.0 * 9.81 * (1 - 1.2 / 8000);
    return (int) Math.round(ZERO_COUNTS + COUNTS_PER_NEWTON * newtons);
  }

  private static Map<String, Object> parse(String line) {
    try {
      return JSON.std.mapFrom(line);
    } catch (java.io.IOException e) {
      throw new AssertionError("not JSON: " + line, e);
    }
  }
}
