package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A short run of the coverage-guided fuzzer over all targets, from the kept inputs and a fixed
 * seed. {@code src/bench/fuzz} runs each target as long as wanted.
 */
class CoverageGuidedIT {
  private static final int RUNS = Integer.getInteger("snick.fuzz.runs", 250);
  private static final long PATIENCE_SECONDS = 180;

  /** The target connects on purpose; statements are fixed texts, and parsing each is slow. */
  private static final String SANITIZERS = "com.code_intelligence.jazzer.sanitizers.";

  private static final Pattern DONE = Pattern.compile("Done (\\d+) runs");

  @TempDir Path folder;

  @Test
  void nothingBreaksAndNewPathsAreFound() throws Exception {
    Path log = folder.resolve("log");
    Process fuzzer =
        new ProcessBuilder(command())
            .directory(folder.toFile())
            .redirectErrorStream(true)
            .redirectOutput(log.toFile())
            .start();
    if (!fuzzer.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
      fuzzer.destroyForcibly();
      throw new AssertionError("the fuzzer did not end: " + Files.readString(log));
    }
    String told = Files.readString(log);
    assertThat(fuzzer.exitValue()).as(told).isZero();
    Matcher done = DONE.matcher(told);
    assertThat(done.find()).as(told).isTrue();
    assertThat(Integer.parseInt(done.group(1))).isGreaterThanOrEqualTo(RUNS);
    assertThat(told).as("coverage guides it").contains("NEW ").contains("cov: ");
  }

  private List<String> command() throws IOException {
    return List.of(
        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
        "-XX:TieredStopAtLevel=1",
        "-XX:+UseSerialGC",
        "-Xmx600m",
        "-cp",
        System.getProperty("java.class.path"),
        "com.code_intelligence.jazzer.Jazzer",
        "--target_class=" + AnyFuzz.class.getName(),
        "--instrumentation_includes=snick.**",
        "--custom_hook_excludes=snick.faults.**",
        "--disabled_hooks="
            + SANITIZERS
            + "ServerSideRequestForgery:"
            + SANITIZERS
            + "SqlInjection",
        "-runs=" + RUNS,
        "-seed=1",
        "-max_len=3001",
        "-rss_limit_mb=3000",
        Files.createDirectories(folder.resolve("found")).toString(),
        kept().toString());
  }

  /** Every kept input with the byte before it that says which target it is for. */
  private Path kept() throws IOException {
    Path all = Files.createDirectories(folder.resolve("kept"));
    for (FuzzTarget target : FuzzTarget.ALL) {
      for (Path input : target.kept()) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        bytes.write(FuzzTarget.ALL.indexOf(target));
        bytes.writeBytes(Files.readAllBytes(input));
        Files.write(all.resolve(target.name() + "-" + input.getFileName()), bytes.toByteArray());
      }
    }
    return all;
  }
}
