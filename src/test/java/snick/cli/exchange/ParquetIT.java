package snick.cli.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cli.Jar;
import snick.cli.SessionStory;
import snick.cli.terminal.ExitCode;

/** A machine for which there is no library that compresses. */
class ParquetIT {
  /** Of snappy-java: the library is looked for in the system alone, where there is none. */
  private static final String OF_THE_SYSTEM = "-Dorg.xerial.snappy.use.systemlib=true";

  @TempDir private Path folder;

  @Test
  void aMissingLibraryIsNamedWithItsReasonAndTheWayOut() throws Exception {
    Path data = folder.resolve("data");
    new SessionStory(data).cuts(90);
    Path target = folder.resolve("pool");
    String[] line = {"export", target.toString(), "--parquet", "--data", data.toString()};
    Jar.Done done = Jar.onThisJava(OF_THE_SYSTEM, "-Djava.library.path=" + folder).run(line);
    assertThat(done.exit()).isEqualTo(ExitCode.FAILED);
    assertThat(done.err())
        .contains("is not there for this platform", "snappyjava", "export without --parquet");
    assertThat(target).doesNotExist();
  }
}
