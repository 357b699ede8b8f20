package snick.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import snick.report.word.Words;
import snick.view.http.PageToken;

/** Every word of the page is in the catalog, so that a translation changes all of them. */
class CatalogTest {
  private static final Pattern SAID = Pattern.compile("(?:say|count)\\('([a-z_]+\\.[a-z_]+)'");
  private static final Pattern IN_PAGE = Pattern.compile("\\{\\{(\\w+\\.\\w+)\\}\\}");
  private static final Pattern TEXT = Pattern.compile(">([^<>{}]*[A-Za-z]{3,}[^<>{}]*)<");
  private static final Pattern LITERAL = Pattern.compile("\"([a-z_.]+)\"");
  private static final Set<String> NAMES =
      Set.of(
          "CC-BY-4.0",
          "CC0-1.0",
          "CC-BY-SA-4.0",
          "CC-BY-NC-4.0",
          "ODbL-1.0",
          "ODC-By-1.0",
          "PDDL-1.0");

  /** A language made from the English one: every text stands in brackets. */
  private static Words pseudo() {
    Map<String, String> texts = new TreeMap<>();
    Words.english().texts().forEach((key, text) -> texts.put(key, "⟦" + text + "⟧"));
    return Words.of("en-x-pseudo", texts);
  }

  private static String page(Words words) {
    return new PageFiles(PageToken.random(), words).find("/").orElseThrow().text();
  }

  @Test
  void everyTextOfThePageIsTranslated() {
    Matcher text = TEXT.matcher(page(pseudo()));
    while (text.find()) {
      String shown = text.group(1).strip();
      assertThat(shown.startsWith("⟦") || NAMES.contains(shown) || shown.matches("[A-Z]\\d"))
          .as("'%s' is in the catalog", shown)
          .isTrue();
    }
    assertThat(page(pseudo())).contains("lang=\"en-x-pseudo\"");
  }

  @Test
  void whatIsSaidLaterIsTranslatedToo() {
    String catalog =
        new PageFiles(PageToken.random(), pseudo()).find("/page/catalog.js").orElseThrow().text();
    assertThat(catalog).startsWith("export const catalog = {").contains("⟦Sharpening⟧");
  }

  @Test
  void whatATranslationLacksStaysEnglish() {
    Words half = Words.of("xx", Map.of("page.rig", "Gerät"));
    assertThat(page(half)).contains(">Gerät<").contains(">Sessions<");
  }

  /** The report's keys are asked for in its own code, whole or up to their last word. */
  @Test
  void everyKeyOfTheReportIsAskedFor() throws IOException {
    Set<String> asked = new TreeSet<>();
    try (Stream<Path> files = Files.walk(Path.of("src/main/java/snick/report"))) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        LITERAL.matcher(Files.readString(file)).results().forEach(l -> asked.add(l.group(1)));
      }
    }
    assertThat(Words.english().texts().keySet())
        .filteredOn(key -> key.startsWith("report."))
        .allSatisfy(
            key -> {
              String rest = key.substring("report.".length());
              assertThat(asked)
                  .as(key)
                  .anyMatch(
                      l ->
                          l.equals(key)
                              || l.equals(rest)
                              || (l.endsWith("_") && key.startsWith(l))
                              || (l.startsWith("report.") && key.startsWith(l + ".")));
            });
  }

  /** The page of the site says the same words, in the same sentences. */
  @Test
  void theSiteExplainsTheSameWords() throws IOException {
    String site = Files.readString(Path.of("src/site/markdown/glossary.md"));
    assertThat(
            Words.english().glossary().stream()
                .map(e -> "| " + e.word() + " | " + e.meaning() + " |"))
        .allSatisfy(row -> assertThat(site).contains(row));
  }

  @Test
  void everyKeyThatIsAskedForIsThereAndEveryOneThereIsAskedFor() throws IOException {
    Set<String> known =
        Words.english().texts().keySet().stream()
            .filter(key -> !key.startsWith("report.") && !key.startsWith("glossary."))
            .map(key -> key.replaceFirst("\\.(one|many)$", ""))
            .collect(Collectors.toCollection(TreeSet::new));
    String all = resource("index.html");
    Set<String> asked = new TreeSet<>();
    IN_PAGE.matcher(all).results().forEach(found -> asked.add(found.group(1)));
    for (String script : PageFiles.SCRIPTS) {
      String code = resource(script);
      all += code;
      SAID.matcher(code).results().forEach(found -> asked.add(found.group(1)));
      assertThat(code).as(script).doesNotContainPattern("toast\\(['`]");
    }
    assertThat(known).containsAll(asked);
    String text = all;
    assertThat(known)
        .allSatisfy(
            key ->
                assertThat(asked.contains(key) || text.contains(key) || isNamed(key, text))
                    .as(key + " is used")
                    .isTrue());
  }

  /** Asked for by a word of the interface: named('burr', word), say(`work.${what}`). */
  private static boolean isNamed(String key, String text) {
    String kind = key.substring(0, key.indexOf('.'));
    return text.contains("named('" + kind + "'")
        || text.contains("`" + kind + ".${")
        || Pattern.compile("`" + kind + "\\.[a-z_]+\\$\\{").matcher(text).find();
  }

  private static String resource(String name) throws IOException {
    try (InputStream in = PageFiles.class.getResourceAsStream("/snick/view/" + name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
