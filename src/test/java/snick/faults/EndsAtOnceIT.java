package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.store.OlderStore;

/** A command whose work is over ends, whatever it set up against being stopped in the middle. */
class EndsAtOnceIT {
  /** Half of what the longest wait of a shutdown hook takes: no slow machine is mistaken for it. */
  private static final long MOST_MILLIS = 10_000;

  @TempDir Path folder;

  @Test
  void anExportAndAnImport() throws Exception {
    Path data = folder.resolve("data");
    OlderStore.make(data, 3);
    Path zip = folder.resolve("package.zip");
    endsOnceItSays("3 cuts", "export", zip.toString(), "--data", data.toString());
    assertThat(Files.exists(zip)).isTrue();
    endsOnceItSays(
        "new cuts stored",
        "import",
        zip.toString(),
        "--despite-differences",
        "--data",
        folder.resolve("theirs").toString());
  }

  private void endsOnceItSays(String last, String... command) throws Exception {
    try (Running running = Running.snick(folder, command)) {
      running.await(last);
      assertThat(running.endsWithin(MOST_MILLIS)).as("ends").isTrue();
    }
  }
}
