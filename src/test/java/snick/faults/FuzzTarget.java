package snick.faults;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/** What is fuzzed, and how long an input is worth trying, in bytes. */
enum FuzzTarget {
  FRAMES(300, FramesFuzz::fuzzerTestOneInput),
  TEXT(1500, TextFuzz::fuzzerTestOneInput),
  CAPTURE(1024, CaptureFuzz::fuzzerTestOneInput),
  RECORDER(2048, RecorderFuzz::fuzzerTestOneInput),
  IMPORT(3000, ImportFuzz::fuzzerTestOneInput),
  HTTP(1200, HttpFuzz::fuzzerTestOneInput);

  private static final Path KEPT = Path.of("src/test/resources/snick/faults/corpus");

  private final int mostBytes;
  private final Trial trial;

  FuzzTarget(int mostBytes, Trial trial) {
    this.mostBytes = mostBytes;
    this.trial = trial;
  }

  /** Tries one input. */
  @FunctionalInterface
  interface Trial {
    void of(byte[] input) throws Exception;
  }

  void run(byte[] input) throws Exception {
    trial.of(input);
  }

  int mostBytes() {
    return mostBytes;
  }

  /** Every input kept of it, sorted. */
  List<Path> kept() throws IOException {
    try (Stream<Path> files = Files.list(KEPT.resolve(name().toLowerCase(Locale.ROOT)))) {
      return files.sorted().toList();
    }
  }
}
