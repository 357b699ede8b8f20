package snick.cli.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snick.cli.Ran;
import snick.cli.terminal.ExitCode;

/** A file that holds nothing to read is bad input for whoever reads it, in the same words. */
class BadFileTest {
  @TempDir Path folder;

  private Ran ran(String... line) {
    String[] all = java.util.Arrays.copyOf(line, line.length + 2);
    all[line.length] = "--data";
    all[line.length + 1] = folder.resolve("data").toString();
    return Ran.command(all);
  }

  private void refusedBy(Ran ran, String because) {
    assertThat(ran.exit()).as(ran.err()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.err()).contains(because);
  }

  private void refusedByAll(Path file, String because) {
    refusedBy(ran("run", file.toString(), "--no-http"), because);
    refusedBy(ran("import", file.toString(), "--rig", "bench"), because);
    refusedBy(Ran.command("analyze", file.toString()), because);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "hello\nworld\n"})
  void withoutSamples(String text) throws Exception {
    Path file = Files.writeString(folder.resolve("log.txt"), text);
    refusedByAll(file, file + " holds no samples; see ");
  }

  @Test
  void ofNoise() throws Exception {
    byte[] noise = new byte[20_000];
    new Random(5).nextBytes(noise);
    Path file = Files.write(folder.resolve("noise.bin"), noise);
    refusedByAll(file, file + " holds no samples; see ");
  }

  @Test
  void whoseColumnsAreNotUnderstood() throws Exception {
    Path file = Files.writeString(folder.resolve("few.txt"), "1\n2\n3\n4\n");
    refusedByAll(file, file + ": line '1' is not understood");
  }
}
