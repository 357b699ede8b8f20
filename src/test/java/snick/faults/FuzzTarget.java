package snick.faults;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/**
 * What is fuzzed.
 *
 * @param name folder of its kept inputs
 * @param mostBytes how long an input is worth trying
 * @param trial tries one input
 */
record FuzzTarget(String name, int mostBytes, Trial trial) {
  /** All targets, in the order in which {@link AnyFuzz} numbers them. */
  static final List<FuzzTarget> ALL =
      List.of(
          new FuzzTarget("frames", 300, FramesFuzz::fuzzerTestOneInput),
          new FuzzTarget("text", 1500, TextFuzz::fuzzerTestOneInput),
          new FuzzTarget("capture", 1024, CaptureFuzz::fuzzerTestOneInput),
          new FuzzTarget("recorder", 2048, RecorderFuzz::fuzzerTestOneInput),
          new FuzzTarget("import", 3000, ImportFuzz::fuzzerTestOneInput),
          new FuzzTarget("http", 1200, HttpFuzz::fuzzerTestOneInput));

  private static final Path KEPT = Path.of("src/test/resources/snick/faults/corpus");

  /** Tries one input. */
  @FunctionalInterface
  interface Trial {
    void of(byte[] input) throws Exception;
  }

  /** Every input kept of it, sorted. */
  List<Path> kept() throws IOException {
    try (Stream<Path> files = Files.list(KEPT.resolve(name))) {
      return files.sorted().toList();
    }
  }
}
