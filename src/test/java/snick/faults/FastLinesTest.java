package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cli.Ran;

/** A rig that sends 50,000 lines a second. */
class FastLinesTest {
  private static final int MICROS_A_LINE = 20;
  private static final int REST = 60_000;
  private static final int RAMP = 25_000;

  @TempDir Path folder;

  private Path threeCuts() throws Exception {
    StringBuilder lines = new StringBuilder();
    long line = 0;
    for (int cut = 0; cut < 3; cut++) {
      for (int i = 0; i < REST + RAMP + REST; i++) {
        boolean loading = i >= REST && i < REST + RAMP;
        long noise = line * 7919 % 41 - 20;
        long counts = 8000 + (loading ? 2L * (i - REST) : 0) + noise;
        lines.append(line++ * MICROS_A_LINE).append(',').append(counts).append('\n');
      }
    }
    return Files.writeString(folder.resolve("fast.txt"), lines);
  }

  private Ran run(Path log, String... more) {
    String line = "run " + log + " --no-http --data " + folder.resolve("data") + " ";
    return Ran.command((line + String.join(" ", more)).strip().split(" ", 0));
  }

  /**
   * Twenty µs a line look like twenty ms: what was taken is said, with the option that settles it.
   */
  @Test
  void itsCutsAreFoundAndWhatItsTimeIsTakenForIsSaid() throws Exception {
    Path log = threeCuts();
    assertThat(run(log).err()).contains("is read as time_ms,counts, probably");
    Ran settled = run(log, "--columns", "time_us,counts");
    assertThat(settled.exit()).as(settled.err()).isZero();
    assertThat(settled.out().lines()).hasSize(3).allMatch(line -> line.contains("severed"));
  }
}
