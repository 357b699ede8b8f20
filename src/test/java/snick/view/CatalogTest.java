package snick.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.Pseudo;
import snick.phrase.Words;
import snick.view.http.PageReach;
import snick.view.http.PageToken;

/** Every word of the page is in the catalog, so that a translation changes all of them. */
class CatalogTest {
  private static final Pattern SAID = Pattern.compile("(?:say|count)\\('([a-z_]+\\.[a-z_]+)'");
  private static final Pattern IN_PAGE = Pattern.compile("\\{\\{(\\w+\\.\\w+)\\}\\}");
  private static final Pattern TEXT = Pattern.compile(">([^<>{}]*[A-Za-z]{3,}[^<>{}]*)<");
  private static final Pattern LITERAL = Pattern.compile("\"([a-z0-9_. -]+)\"");
  private static final Pattern ATTRIBUTE =
      Pattern.compile(" (?:title|placeholder|aria-label|alt)=\"([^\"]+)\"");
  private static final Pattern SENTENCE = Pattern.compile(" ?\"((?:[^\"\\\\]|\\\\.)+)\"[,}\\]]");
  private static final Pattern KEY = Pattern.compile("\"([a-z_]+\\.[a-z0-9_]+)\"");
  private static final Pattern FIELD =
      Pattern.compile(
          "(?:Field\\.(?:name|note|reason|within|called)|Range\\.require|EnumWords\\.parse"
              + "|requirePlain|needed)\\(\\s*\"([^\"]+)\"\\s*[,)]");
  private static final Set<String> CODE =
      Set.of(
          "report",
          "draw",
          "budget",
          "reason",
          "rule",
          "unless",
          "source",
          "more",
          "clue",
          "next_check",
          "coach",
          "margin_from",
          "place",
          "lot",
          "story",
          "changed",
          "then",
          "done",
          "seen",
          "refused",
          "near",
          "allowed",
          "cannot",
          "see",
          "field",
          "store",
          "port",
          "door",
          "setting",
          "held",
          "rail",
          "gap",
          "fault",
          "doubt",
          "scale",
          "warning",
          "record",
          "merit",
          "distribution",
          "loading");

  private static String page(Words words) {
    return new PageFiles(PageToken.random(), words).find("/").orElseThrow().text();
  }

  @Test
  void everyTextOfThePageIsTranslated() {
    String page = page(Pseudo.words());
    Matcher text = TEXT.matcher(page);
    while (text.find()) {
      Pseudo.assertNoEnglish("page", text.group(1));
    }
    ATTRIBUTE.matcher(page).results().forEach(a -> Pseudo.assertNoEnglish("page", a.group(1)));
    assertThat(page).contains("lang=\"" + Pseudo.LANGUAGE + "\"");
  }

  @Test
  void idsAreUniqueInThePage() {
    List<String> ids =
        Pattern.compile(" id=\"([^\"]+)\"")
            .matcher(page(Words.english()))
            .results()
            .map(id -> id.group(1))
            .toList();
    assertThat(ids).hasSizeGreaterThan(100).doesNotHaveDuplicates();
  }

  @Test
  void whatIsSaidLaterIsTranslatedToo() {
    String catalog =
        new PageFiles(PageToken.random(), Pseudo.words())
            .find("/page/catalog.js")
            .orElseThrow()
            .text();
    assertThat(catalog).startsWith("export const catalog = {").contains(Pseudo.of("Sharpening"));
  }

  /** What the recorder says itself: advice, verdicts with their reasons, what can be undone. */
  @Test
  void whatTheRecorderSaysIsTranslatedToo(@TempDir Path folder) throws Exception {
    try (TestBench bench = new TestBench(folder, PageReach.loopback(), PseudoPage.preferences())) {
      bench.post("sessions", "{\"blade\":\"petty\",\"first_stage\":\"as found\"}");
      List.of(120, 130, 125).forEach(bench::cut);
      bench.post(
          "session/inspections",
          "{\"method\":\"raking_light\",\"side\":\"left\",\"finding\":\"burr_seen\",\"place\":\"heel\"}");
      bench.post("session/stages", "{\"name\":\"deburred\"}");
      bench.post("session/steps", "{\"abrasive\":\"rod\",\"grit\":1200}");
      List.of(70, 72, 71).forEach(bench::cut);
      TestBench.await("six cuts", () -> said(bench).stream().anyMatch(s -> s.contains("−54.0 gf")));
      for (String said : said(bench)) {
        Pseudo.assertNoEnglish("bench", said, List.of("petty", "as found", "deburred", "rod"));
      }
    }
  }

  private static List<String> said(TestBench bench) throws IOException, InterruptedException {
    String session = bench.get("/api/v1/bench").body();
    String blade = bench.get("/api/v1/blades/history?blade=petty").body();
    return SENTENCE
        .matcher(session + blade)
        .results()
        .map(found -> found.group(1))
        .filter(text -> !text.matches("[a-z_]+|[0-9A-Z:.-]+|cal-.*"))
        .toList();
  }

  @Test
  void whatATranslationLacksStaysEnglish() {
    Words half = Words.of("xx", Map.of("page.rig", "Gerät"));
    assertThat(page(half)).contains(">Gerät<").contains(">Sessions<");
  }

  /** A key in Java that is not in the catalog would show only when it is needed. */
  @Test
  void everyKeyThatJavaAsksForIsThere() throws IOException {
    Set<String> keys = Words.english().texts().keySet();
    Set<String> kinds = keys.stream().map(CatalogTest::kind).collect(Collectors.toSet());
    Set<String> lacking = new TreeSet<>();
    try (Stream<Path> files = Files.walk(Path.of("src/main/java/snick"))) {
      for (Path file : files.filter(f -> f.toString().endsWith(".java")).toList()) {
        String code = Files.readString(file);
        KEY.matcher(code)
            .results()
            .map(found -> found.group(1))
            .filter(key -> kinds.contains(kind(key)))
            .filter(key -> !keys.contains(key) && !keys.contains(key + ".many"))
            .filter(key -> !key.matches(".*\\.(js|json|csv|zip)"))
            .filter(key -> keys.stream().noneMatch(known -> isBeginning(key, known)))
            .forEach(lacking::add);
        FIELD
            .matcher(code)
            .results()
            .map(found -> "field." + found.group(1).replace(' ', '_'))
            .filter(key -> !keys.contains(key))
            .forEach(lacking::add);
      }
    }
    assertThat(lacking).isEmpty();
  }

  private static boolean isBeginning(String key, String known) {
    return known.startsWith(key)
        && (key.endsWith("_") || "_.".indexOf(known.charAt(key.length())) >= 0);
  }

  /** Keys that the code asks for, whole or up to their last word. */
  @Test
  void everyKeyOfReportPicturesAndVerdictsIsAskedFor() throws IOException {
    Set<String> asked = new TreeSet<>();
    for (String stage :
        List.of(
            "report",
            "verdict",
            "journal",
            "view",
            "force",
            "store",
            "port",
            "daemon",
            "exchange",
            "cli",
            "phrase")) {
      try (Stream<Path> files = Files.walk(Path.of("src/main/java/snick", stage))) {
        for (Path file : files.filter(Files::isRegularFile).toList()) {
          LITERAL.matcher(Files.readString(file)).results().forEach(l -> asked.add(l.group(1)));
        }
      }
    }
    assertThat(Words.english().texts().keySet())
        .filteredOn(CatalogTest::askedByCode)
        .allMatch(key -> isAsked(key, asked));
  }

  private static boolean isAsked(String key, Set<String> asked) {
    String kind = kind(key);
    String rest = key.substring(Math.min(key.length(), kind.length() + 1));
    return asked.contains(key)
        || asked.contains(kind)
        || (List.of("report", "record").contains(kind) && asked.contains(rest))
        || (kind.equals("field")
            && asked.stream().anyMatch(l -> underscored(l).equals(underscored(rest))))
        || IntStream.range(1, key.length()).anyMatch(i -> beginningIsAsked(key, i, asked));
  }

  private static String underscored(String literal) {
    return literal.replaceAll("[ -]", "_");
  }

  private static boolean beginningIsAsked(String key, int length, Set<String> asked) {
    boolean open = "._".indexOf(key.charAt(length - 1)) >= 0;
    boolean whole = key.charAt(length) == '.' && length > kind(key).length();
    return (open || whole) && asked.contains(key.substring(0, length));
  }

  /** Asked for by Java; the page asks for the others. */
  private static boolean askedByCode(String key) {
    return CODE.contains(kind(key));
  }

  private static String kind(String key) {
    int dot = key.indexOf('.');
    return dot < 0 ? key : key.substring(0, dot);
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
            .filter(key -> !askedByCode(key) && !key.startsWith("glossary."))
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
