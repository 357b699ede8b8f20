package snick.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.store.database.Watch;
import snick.store.record.StoredCut;

/** A recorder killed at any instant has stored whatever it announced. */
class KilledTest {
  private static final int ROUNDS = 20;

  @TempDir Path directory;
  @TempDir Path temporary;

  @Test
  void everyAnnouncedCutSurvivesAKill() throws Exception {
    Random random = new Random(1);
    for (int round = 1; round <= ROUNDS; round++) {
      Map<Long, Integer> announced = announcedBeforeKill(1 + random.nextInt(40));
      try (StoreReader reader = StoreReader.open(directory)) {
        announced.forEach(
            (id, number) ->
                assertThat(reader.cut(id).map(StoredCut::cut)).contains(Examples.severed(number)));
        assertThat(reader.verify(Watch.NONE).problems()).as("round " + round).isEmpty();
      }
    }
    assertThat(temporary).as("nothing left in the temporary folder").isEmptyDirectory();
  }

  /** Numbers by id; killed as soon as {@code lines} are read, wherever the program then is. */
  private Map<Long, Integer> announcedBeforeKill(int lines)
      throws IOException, InterruptedException {
    Process program =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-Djava.io.tmpdir=" + temporary,
                "-cp",
                System.getProperty("java.class.path"),
                AppendingProgram.class.getName(),
                directory.toString())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    Map<Long, Integer> announced = new LinkedHashMap<>();
    try (BufferedReader out = program.inputReader(StandardCharsets.UTF_8)) {
      String line = out.readLine();
      while (line != null) {
        String[] parts = line.split(" ", 2);
        announced.put(Long.parseLong(parts[0]), Integer.parseInt(parts[1]));
        if (announced.size() == lines) {
          program.toHandle().destroyForcibly();
        }
        line = out.readLine();
      }
    }
    program.waitFor();
    assertThat(announced).hasSizeGreaterThanOrEqualTo(lines);
    return announced;
  }
}
