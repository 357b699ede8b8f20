package snick.cli.cuts;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import snick.cli.Jar;
import snick.cli.Live;

/** Bytes on standard input that pauses: nobody waits for the next byte to see what came before. */
class AnalyzeIT {
  private static final Path LOG = Path.of("demo-data/as-found.txt");

  @Test
  void cutsAreShownWhileStandardInputIsStillOpen() throws Exception {
    List<String> expected = Files.readAllLines(Path.of(LOG + ".expected.jsonl"));
    try (Live analysis =
        Jar.onThisJava().start("analyze", "-", "--counts-per-gf", "437.25", "--json")) {
      analysis.type(Files.readString(LOG));
      for (String line : expected) {
        assertThat(analysis.await("\"outcome\"")).isEqualTo(line);
      }
    }
  }
}
