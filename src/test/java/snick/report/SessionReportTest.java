package snick.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import snick.Pseudo;
import snick.journal.Session;
import snick.phrase.NotAccepted;
import snick.phrase.Words;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.verdict.comparison.Judge;
import snick.verdict.comparison.RigRepeatability;

class SessionReportTest {
  private static final Judge JUDGE =
      new Judge(OptionalDouble.of(8), Optional.of(new RigRepeatability(3, 20, "invented study")));

  @TempDir static Path directory;
  private static String html;
  private static String withPersonal;
  private static String markdown;
  private static Document page;

  @BeforeAll
  static void report() {
    InventedEvening.in(directory, InventedEvening.HOSTILE);
    try (StoreReader store = StoreReader.open(directory)) {
      SessionReport plain =
          SessionReport.of(store, InventedEvening.SESSION, JUDGE, false, Words.english());
      html = plain.html();
      markdown = plain.markdown();
      withPersonal =
          SessionReport.of(store, InventedEvening.SESSION, JUDGE, true, Words.english()).html();
      assertThat(
              SessionReport.of(store, InventedEvening.SESSION, JUDGE, false, Words.english())
                  .html())
          .isEqualTo(html);
    }
    page = Xml.parse(html);
  }

  private static String text() {
    return page.getDocumentElement().getTextContent();
  }

  @Test
  void tellsTheStoryFromAsFoundToFinished() {
    assertThat(text())
        .contains("In-house measurements, not an accredited certificate.")
        .contains("Keener: the force to cut the filament fell by 55")
        .contains("2.034 N (207.4 gf)")
        .contains("0.921 N (93.9 gf)")
        .contains("chance alone would hardly make a change this large")
        .contains("deburred, a long name for one stage of the work")
        .contains("raking light, left, heel: burr seen")
        .contains("20 strokes a side")
        .contains("set aside")
        .contains("Rule 1: ")
        .contains("(Student 1908; Wilcoxon 1945)")
        .contains("What would change it: ")
        .contains("cut-resistant glove and eye protection")
        .contains("Last check with a known mass: 2026-05-04");
  }

  /** Its cuts say which rig it was. */
  @Test
  void aSessionThatNamesNoRigIsOfTheRigOfItsCuts(@TempDir Path folder) {
    InventedEvening.withoutRig(folder, "kitchen-1");
    try (StoreReader store = StoreReader.open(folder)) {
      String told =
          SessionReport.of(store, InventedEvening.SESSION, JUDGE, false, Words.english()).html();
      assertThat(told).contains("Last check with a known mass: 2026-05-04");
      Session measured = SessionEvidence.read(store, InventedEvening.SESSION).measured();
      assertThat(measured.equipment().rig()).contains(InventedEvening.RIG);
      assertThat(measured.equipment().calibration()).isPresent();
    }
  }

  @Test
  void needsNothingFromElsewhere() {
    assertThat(page.getElementsByTagName("script").getLength()).isZero();
    assertThat(page.getElementsByTagName("link").getLength()).isZero();
    assertThat(page.getElementsByTagName("img").getLength()).isZero();
    assertThat(page.getElementsByTagName("image").getLength()).isZero();
    NodeList all = page.getElementsByTagName("*");
    for (int i = 0; i < all.getLength(); i++) {
      Element element = (Element) all.item(i);
      for (int k = 0; k < element.getAttributes().getLength(); k++) {
        String name = element.getAttributes().item(k).getNodeName();
        String value = element.getAttributes().item(k).getNodeValue();
        assertThat(name).doesNotStartWith("on").isNotIn("href", "xlink:href", "src", "srcset");
        if (!name.startsWith("xmlns")) {
          assertThat(value).doesNotContain("//").doesNotMatch(".*url\\((?!#).*");
        }
      }
    }
    assertThat(html).doesNotContain("@import");
    assertThat(Pattern.compile("url\\((?!#)").matcher(html).find()).isFalse();
    assertThat(html).contains("default-src 'none'");
  }

  @Test
  void drawsTheSessionEachStageAndOneCut() {
    assertThat(page.getElementsByTagName("svg").getLength()).isEqualTo(6);
  }

  /** Running text, tables, captions, pictures' titles and the line at the foot of a sheet. */
  @Test
  void itsWordsCanBeTranslated() {
    try (StoreReader store = StoreReader.open(directory)) {
      SessionReport report =
          SessionReport.of(store, InventedEvening.SESSION, JUDGE, true, Pseudo.words());
      Document told = Xml.parse(report.html());
      assertThat(told.getDocumentElement().getAttribute("lang")).isEqualTo(Pseudo.LANGUAGE);
      Pseudo.assertNoEnglish(
          "report",
          told.getElementsByTagName("body").item(0).getTextContent(),
          InventedEvening.NAMES);
      NodeList cells = told.getElementsByTagName("td");
      for (int i = 0; i < cells.getLength(); i++) {
        String column = ((Element) cells.item(i)).getAttribute("data-name");
        Pseudo.assertNoEnglish("column", column);
      }
      assertThat(report.html()).contains("content: \"" + Pseudo.of("In-house"));
      Pseudo.assertNoEnglish(
          "as Markdown", report.markdown().replace("\\", ""), InventedEvening.NAMES);
    }
  }

  @Test
  void idsAreUniqueInThePage() {
    NodeList all = page.getElementsByTagName("*");
    java.util.Set<String> ids = new java.util.HashSet<>();
    for (int i = 0; i < all.getLength(); i++) {
      String id = ((Element) all.item(i)).getAttribute("id");
      assertThat(id.isEmpty() || ids.add(id)).as(id).isTrue();
    }
  }

  @Test
  void hostileNamesStayText() {
    assertThat(html).doesNotContain("<script").doesNotContain("<img");
    assertThat(text()).contains(InventedEvening.HOSTILE);
  }

  @Test
  void personalFieldsAreLeftOutUnlessAskedFor() {
    assertThat(html)
        .doesNotContain(InventedEvening.OPERATOR)
        .doesNotContain(InventedEvening.SECRET_NOTE)
        .doesNotContain("clamp slipped");
    assertThat(withPersonal)
        .contains(InventedEvening.OPERATOR)
        .contains(InventedEvening.SECRET_NOTE)
        .contains("clamp slipped");
    assertThat(markdown)
        .doesNotContain(InventedEvening.OPERATOR)
        .doesNotContain(InventedEvening.SECRET_NOTE);
  }

  @Test
  void markdownHasTablesAndNoMarkupOfOthers() {
    assertThat(markdown)
        .startsWith("# Session evening\n")
        .contains("| Stage | What was done | Mean force |")
        .doesNotContainPattern("(?<!\\\\)[<`]")
        .contains("\\<script\\>")
        .contains("\\|\\`\\*\\_");
    for (String row : markdown.lines().filter(l -> l.startsWith("| ")).toList()) {
      assertThat(row.replace("\\|", "")).matches("\\|( [^|]* \\|)+");
    }
  }

  @Test
  void aReasonThatSaysNoDifferenceReadsAsWords() {
    assertThat(html).doesNotContain("no_difference_shown").doesNotContain("not_indicated");
  }

  @Test
  void namesWhatIsNotThere() {
    try (StoreReader store = StoreReader.open(directory)) {
      assertThatThrownBy(() -> SessionReport.of(store, "morning", JUDGE, false, Words.english()))
          .isInstanceOf(NotAccepted.class)
          .hasMessageContaining("morning");
    }
  }
}
