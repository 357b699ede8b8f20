package snick.cli.begin;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.Needs;
import snick.cli.Jar;
import snick.cli.Live;

/** The dialogue of a person's first ten minutes, on a pseudo-terminal. */
class BeginIT {
  @TempDir private Path folder;

  @Test
  void fromNothingToAFirstCalibratedCutWithTwoAnswers() throws Exception {
    boolean there = Files.isExecutable(Path.of("/usr/bin/script"));
    Needs.tool(there, "no /usr/bin/script", "the first steps as a dialogue on a terminal");
    String data = folder.resolve("store").toString();
    try (Live begin = Jar.onThisJava().startOnTerminal("begin", "--virtual", "--data", data)) {
      begin.await("$ snick touch --virtual");
      begin.await("raises the reading");
      begin.await("$ snick doctor --virtual");
      begin.await("checks, 0 failed");
      begin.type("");
      begin.type("");
      begin.await("$ snick calibrate --virtual");
      begin.await("Saved.");
      begin.await("within limits");
      assertThat(begin.await("severed")).contains("gf").contains("±");
      begin.await("Done.");
      assertThat(begin.ended()).isZero();
    }
  }

  @Test
  void whereThereIsNoPortItSaysSo() throws Exception {
    Jar.Done done =
        Jar.onThisJava()
            .run("begin", folder.resolve("ttyNONE").toString(), "--data", folder.toString());

    assertThat(done.exit()).isNotZero();
    assertThat(done.err()).contains("ttyNONE").doesNotContain("Exception");
  }
}
