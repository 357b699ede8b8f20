package snick.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The document's table of conditions is the list of them. */
class ConditionTableTest {
  private static final Pattern ROW = Pattern.compile("(?m)^\\| `([a-z-]+)` \\| (.+) \\|$");

  @Test
  void documentListsEveryConditionInOrder() throws IOException {
    String page = Files.readString(Path.of("firmware-protocol.md"));
    String section = page.substring(page.indexOf("## Conformance"), page.indexOf("## Cautions"));
    List<String> rows =
        ROW.matcher(section).results().map(row -> row.group(1) + ": " + row.group(2)).toList();
    List<String> conditions =
        Stream.of(Condition.values()).map(each -> each.id() + ": " + each.words()).toList();
    assertThat(rows).isEqualTo(conditions);
  }
}
