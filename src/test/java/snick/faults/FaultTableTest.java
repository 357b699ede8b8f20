package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The table of faults names tests that exist, and all of this package. */
class FaultTableTest {
  private static final Path TABLE = Path.of("src/site/markdown/faults.md");
  private static final Path TESTS = Path.of("src/test/java");
  private static final Pattern NAME = Pattern.compile("`(\\w+(?:Test|IT))`");

  private static List<String> rows() throws IOException {
    return Files.readAllLines(TABLE).stream()
        .filter(line -> line.startsWith("| ") && !line.startsWith("| fault "))
        .toList();
  }

  private static Set<String> namedIn(String text) {
    return NAME.matcher(text)
        .results()
        .map((MatchResult result) -> result.group(1))
        .collect(Collectors.toCollection(TreeSet::new));
  }

  private static Set<String> testsIn(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files
          .map(file -> file.getFileName().toString())
          .filter(name -> name.matches("\\w+(Test|IT)\\.java"))
          .map(name -> name.substring(0, name.length() - ".java".length()))
          .collect(Collectors.toCollection(TreeSet::new));
    }
  }

  @Test
  void everyRowNamesATestThatExists() throws IOException {
    Set<String> there = testsIn(TESTS);
    assertThat(rows()).hasSizeGreaterThan(20);
    for (String row : rows()) {
      String[] cells = row.split("\\|", -1);
      assertThat(cells).as(row).hasSize(5);
      assertThat(namedIn(cells[3])).as(row).isNotEmpty().isSubsetOf(there);
    }
  }

  @Test
  void noTestOfFaultsIsMissing() throws IOException {
    Set<String> named = namedIn(String.join("\n", rows()));
    Set<String> here = testsIn(TESTS.resolve("snick/faults"));
    here.remove(FaultTableTest.class.getSimpleName());
    assertThat(named).containsAll(here);
  }
}
