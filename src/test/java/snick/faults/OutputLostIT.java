package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import snick.store.OlderStore;

/** What was printed and could not be written is no success, unless nobody wanted it any more. */
class OutputLostIT {
  private static final List<String> TO_FULL_DISK =
      List.of("sh", "-c", "exec \"$@\" >/dev/full", "sh");

  @TempDir private static Path folder;

  @BeforeAll
  static void storeWithCuts() throws Exception {
    OlderStore.make(folder.resolve("data"), 3);
  }

  private List<String> commands(String line) {
    return List.of(line.replace("DATA", folder.resolve("data").toString()).split(" "));
  }

  static Stream<String> lines() {
    return Stream.of(
        "cuts list --data DATA",
        "store check --data DATA",
        "cuts show 1 --json --data DATA",
        "analyze --json demo-data/as-found.txt",
        "--help");
  }

  @ParameterizedTest
  @MethodSource("lines")
  void aFullDiskIsSaidAndIsAFailure(String line) throws Exception {
    try (Running snick = started(TO_FULL_DISK, line)) {
      assertThat(snick.over()).as(line).isEqualTo(1);
      assertThat(snick.lines())
          .contains("snick: the output could not be written: No space left on device");
    }
  }

  /** Quietly, and at once: else the work goes on for hours, for nobody. */
  @Test
  void analyzingEndsWhenNobodyReadsWhatItFinds() throws Exception {
    String endless = "cat demo-data/as-found.txt; yes \"$(cat demo-data/as-found.txt)\"";
    List<String> starter =
        List.of(
            "sh", "-c", "{ " + endless + "; } | { \"$@\"; echo status $? >&2; } | head -n 1", "sh");
    try (Running snick = started(starter, "analyze - --json")) {
      snick.over();
      assertThat(snick.lines()).hasSize(2).contains("status 0");
    }
  }

  private Running started(List<String> starter, String line) throws Exception {
    return Running.by(starter, folder, List.of(), commands(line).toArray(String[]::new));
  }
}
