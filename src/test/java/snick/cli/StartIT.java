package snick.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.jar.JarFile;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import snick.cli.terminal.ExitCode;

/** What every start must not do: print on stderr, or depend on the Java it runs on. */
class StartIT {
  @TempDir Path folder;

  static List<Jar> jars() throws IOException {
    return Jar.onEveryJava();
  }

  @ParameterizedTest
  @MethodSource("jars")
  void nothingIsPrintedOnStderrAtStart(Jar jar) throws Exception {
    for (List<String> command :
        List.of(
            List.of("--version"),
            List.of("ports", "--no-ask"),
            List.of("demo", "--speed", "100", "--data", folder.resolve(jar.toString()).toString()),
            List.of("cuts", "list", "--data", folder.resolve(jar.toString()).toString()))) {
      Jar.Done done = jar.run(command.toArray(String[]::new));
      assertThat(done.err()).as(jar + " " + command).isEmpty();
      assertThat(done.exit()).as(jar + " " + command).isZero();
    }
  }

  @Test
  void theManifestAllowsNativeAccess() throws Exception {
    try (JarFile jar = new JarFile(System.getProperty("snick.jar"))) {
      assertThat(jar.getManifest().getMainAttributes().getValue("Enable-Native-Access"))
          .isEqualTo("ALL-UNNAMED");
    }
  }

  @Test
  void aRigThatIsNotThereIsSaidAtOnce() throws Exception {
    for (String port : List.of("/dev/no-such-port", "no-such-name", "tcp://127.0.0.1:1")) {
      Jar.Done done =
          Jar.onThisJava().run("run", port, "--no-http", "--data", folder.resolve("x").toString());

      assertThat(done.exit()).as(port).isEqualTo(ExitCode.UNAVAILABLE);
      assertThat(done.err()).contains(port).doesNotContain("Exception");
    }
  }

  @ParameterizedTest
  @MethodSource("wrongLines")
  void aWrongCommandLineExitsWithTwo(List<String> line) throws Exception {
    Jar.Done done = Jar.onThisJava().run(line.toArray(String[]::new));

    assertThat(done.exit()).as(line + " " + done.err()).isEqualTo(ExitCode.USAGE);
    assertThat(done.err()).isNotBlank().doesNotContain("Exception").doesNotContain("\tat ");
  }

  static Stream<List<String>> wrongLines() {
    return Stream.of(
        List.of(),
        List.of("nosuch"),
        List.of("cuts"),
        List.of("analyze"),
        List.of("analyze", "x", "--rate", "-1"),
        List.of("run", "tcp://nohost"),
        List.of("demo", "--speed", "0"));
  }
}
