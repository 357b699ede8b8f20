package snick.firmware;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The shipped jar's protocol check on all that speaks the protocol, side by side: each trial waits
 * more than it works.
 */
@NeedsTools({
  Tool.GCC,
  Tool.MAKE,
  Tool.AVR_GCC,
  Tool.ARDUINO_CORE,
  Tool.SIMAVR,
  Tool.ARM_GCC,
  Tool.QEMU_ARM,
  Tool.PYTHON
})
@Timeout(120)
class ConformingDevicesIT {
  /**
   * Timed against this machine, which may have other work; the trial's own test has its own time.
   */
  private static final List<Object> MISSED_BY_A_BUSY_HOST = List.of("answer-time", "clock");

  private static final int CONDITIONS = 22;

  /** What the example without a converter makes up. */
  private static final double TRUE_GRAM_FORCE = 150;

  @TempDir private static Path folder;
  private static final Deque<AutoCloseable> OPEN = new ArrayDeque<>();
  private static Jar reference;
  private static Jar sketch;
  private static Jar cortexM;
  private static Jar independent;
  private static Jar onTerminal;
  private static Jar recording;

  @BeforeAll
  static void startAll() throws Exception {
    Make.REFERENCE.run("all", "emulator", "sketches-avr", "sketches-arm");
    reference = check(emulated("reference", Make.REFERENCE.elf()));
    sketch = check(emulated("sketch", Make.REFERENCE.avrSketch("FullProtocol")));
    cortexM = check(inQemu());
    independent = check(opened(IndependentDevice.start()));
    onTerminal = check(opened(IndependentDevice.startOnTerminal(folder.resolve("terminal"))));
    recording =
        jar(
            "run",
            inQemu(),
            "--cuts",
            "1",
            "--json",
            "--no-http",
            "--counts-per-gf",
            "437.25",
            "--data",
            folder.resolve("data").toString());
  }

  private static String emulated(String name, Path firmware) throws IOException {
    List<String> script =
        new Random(3).ints(4_000, -90_000, 90_000).mapToObj(String::valueOf).toList();
    EmulatedBoard board =
        EmulatedBoard.start(
            Make.REFERENCE,
            firmware,
            Files.createDirectory(folder.resolve(name)),
            script,
            "--id",
            EmulatedBoard.ID);
    OPEN.push(board);
    return board.link().toString();
  }

  private static String inQemu() throws IOException {
    CortexBoard board = CortexBoard.start(Make.REFERENCE.cortexM());
    OPEN.push(board);
    return board.address();
  }

  private static String opened(IndependentDevice device) {
    OPEN.push(device);
    return device.address();
  }

  private static Jar check(String port) throws IOException {
    return jar("protocol", "check", port, "--json");
  }

  private static Jar jar(String... arguments) throws IOException {
    Jar jar = Jar.run(Files.createTempDirectory(folder, "jar"), arguments);
    OPEN.push(jar);
    return jar;
  }

  @AfterAll
  static void stopAll() throws Exception {
    while (!OPEN.isEmpty()) {
      OPEN.pop().close();
    }
  }

  @Test
  void referenceFirmwarePasses() throws Exception {
    passes(reference);
  }

  @Test
  void theLibrarysSketchPassesOnTheSameBoard() throws Exception {
    passes(sketch);
  }

  @Test
  void theLibraryPassesOnACortexM() throws Exception {
    List<Map<String, Object>> conditions = passes(cortexM);
    assertThat(conditions.toString()).contains("at most 26 samples in a batch", "nominal 1000");
  }

  @Test
  void aDeviceWrittenFromTheDocumentPasses() throws Exception {
    passes(independent);
  }

  @Test
  void itPassesOnATerminalInRawModeToo() throws Exception {
    passes(onTerminal);
  }

  private static List<Map<String, Object>> passes(Jar jar) throws Exception {
    List<Map<String, Object>> conditions = jar.lines().map(ConformingDevicesIT::parse).toList();
    assertThat(conditions).hasSize(CONDITIONS);
    List<Object> missed =
        conditions.stream()
            .filter(condition -> !condition.get("outcome").equals("passed"))
            .map(condition -> condition.get("condition"))
            .toList();
    assertThat(MISSED_BY_A_BUSY_HOST).as("%s", conditions).containsAll(missed);
    assertThat(jar.exitStatus()).isEqualTo(missed.isEmpty() ? 0 : 3);
    return conditions;
  }

  @Test
  void aThousandSamplesASecondAreRecordedOverTcp() throws Exception {
    Map<String, Object> cut = parse(recording.lines().findFirst().orElseThrow());
    assertThat(cut).containsEntry("outcome", "severed");
    assertThat(((Number) cut.get("force_gf")).doubleValue())
        .isCloseTo(TRUE_GRAM_FORCE, within(0.5));
    assertThat(recording.exitStatus()).isZero();
  }

  private static Map<String, Object> parse(String line) {
    try {
      return JSON.std.mapFrom(line);
    } catch (IOException e) {
      throw new UncheckedIOException("not JSON: " + line, e);
    }
  }
}
