package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicContainer;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/** Every input kept of the fuzz targets, those that once failed among them, on each build. */
class KeptInputsTest {
  static final Path KEPT = Path.of("src/test/resources/snick/faults/corpus");

  /** A fuzz target. */
  @FunctionalInterface
  interface Target {
    void run(byte[] input) throws Exception;
  }

  static final Map<String, Target> TARGETS =
      Map.of(
          "frames", FramesFuzz::fuzzerTestOneInput,
          "text", TextFuzz::fuzzerTestOneInput,
          "recorder", RecorderFuzz::fuzzerTestOneInput,
          "capture", CaptureFuzz::fuzzerTestOneInput,
          "import", ImportFuzz::fuzzerTestOneInput,
          "http", HttpFuzz::fuzzerTestOneInput);

  @TestFactory
  Stream<DynamicContainer> keptInputs() {
    return TARGETS.entrySet().stream()
        .map(
            target ->
                DynamicContainer.dynamicContainer(
                    target.getKey(),
                    inputs(target.getKey()).stream().map(input -> test(target.getValue(), input))));
  }

  private static DynamicTest test(Target target, Path input) {
    return DynamicTest.dynamicTest(
        input.getFileName().toString(), () -> target.run(Files.readAllBytes(input)));
  }

  private static List<Path> inputs(String target) {
    try (Stream<Path> files = Files.list(KEPT.resolve(target))) {
      List<Path> inputs = files.sorted().toList();
      assertThat(inputs).as("inputs kept of " + target).isNotEmpty();
      return inputs;
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }
}
