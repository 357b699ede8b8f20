package snick.demodata;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import snick.cli.Analysis;

/**
 * The recordings in demo-data are what their seeds make, and give the cuts written beside them. To
 * make them anew after a deliberate change: {@code mvn test -Dtest=DemoDataTest
 * -Dsnick.remake=true}.
 */
class DemoDataTest {
  private static final Path FOLDER = Path.of("demo-data");
  private static final boolean REMAKE = Boolean.getBoolean("snick.remake");

  @TempDir Path scratch;

  static Stream<String> names() {
    return Recordings.all().keySet().stream();
  }

  @ParameterizedTest
  @MethodSource("names")
  void aRecordingIsWhatItsSeedMakes(String name) throws IOException {
    byte[] made = Recordings.render(Recordings.all().get(name), scratch);
    if (REMAKE) {
      Files.write(FOLDER.resolve(name), made);
    }

    assertThat(Files.readAllBytes(FOLDER.resolve(name))).isEqualTo(made);
  }

  @ParameterizedTest
  @MethodSource("names")
  void aRecordingGivesItsExpectedCuts(String name) throws IOException {
    List<String> found = Analysis.jsonLines(FOLDER.resolve(name), scale(name));
    Path expectation = FOLDER.resolve(name + ".expected.jsonl");
    if (REMAKE) {
      Files.writeString(expectation, String.join("\n", found) + "\n", UTF_8);
    }
    List<String> expected = Files.readAllLines(expectation, UTF_8);

    assertThat(found).hasSameSizeAs(expected);
    for (int i = 0; i < found.size(); i++) {
      assertSame(JSON.std.mapFrom(expected.get(i)), JSON.std.mapFrom(found.get(i)));
    }
  }

  /** Numbers may differ in the last place between processors; nothing else may. */
  private static void assertSame(Map<String, Object> expected, Map<String, Object> found) {
    assertThat(found.keySet()).isEqualTo(expected.keySet());
    expected.forEach(
        (key, value) -> {
          if (value instanceof Number number) {
            double wanted = number.doubleValue();
            assertThat(((Number) found.get(key)).doubleValue())
                .as(key)
                .isCloseTo(wanted, within(1e-5 + 1e-6 * Math.abs(wanted)));
          } else {
            assertThat(found.get(key)).as(key).isEqualTo(value);
          }
        });
  }

  @Test
  void everyFileHereIsNamedInItsReadme() throws IOException {
    String readme = Files.readString(FOLDER.resolve("README.md"));
    assertThat(readme).contains("invented");
    try (Stream<Path> files = Files.list(FOLDER)) {
      assertThat(files.map(f -> f.getFileName().toString()).filter(n -> !n.equals("README.md")))
          .allSatisfy(n -> assertThat(readme).contains(n.replace(".expected.jsonl", "")));
    }
  }

  private static double scale(String name) {
    return name.equals("gram-force.txt") ? 1 : 437.25;
  }
}
