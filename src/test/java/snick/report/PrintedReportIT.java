package snick.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.Needs;
import snick.phrase.Words;
import snick.store.StoreReader;
import snick.verdict.comparison.Judge;
import snick.view.Browser;

/** Prints a report with Debian's Chromium, where it is installed. */
class PrintedReportIT {
  private static final Pattern PAGE = Pattern.compile("/Type /Page\\s");

  @TempDir static Path folder;
  private static String html;
  private static Browser browser;

  @BeforeAll
  static void report() {
    Needs.tool(Browser.installed(), "no chromium and chromium-driver", "the report on paper");
    Path data = folder.resolve("data");
    InventedEvening.in(data, InventedEvening.HOSTILE);
    try (StoreReader store = StoreReader.open(data)) {
      html =
          SessionReport.of(store, InventedEvening.SESSION, Judge.plain(), false, Words.english())
              .html();
    }
    browser = Browser.start(folder.resolve("profile"));
  }

  @AfterAll
  static void close() {
    if (browser != null) {
      browser.close();
    }
  }

  /** Sizes of the paper in points of 1/72 inch: ISO 216 A4 is 210 mm × 297 mm. */
  @Test
  void printsOnA4() throws IOException {
    String pdf = printed("A4");
    assertThat(pdf).contains("/MediaBox [0 0 594.95996 841.91998]");
    assertThat(PAGE.matcher(pdf).results().count()).as("pages for 24 cuts").isBetween(2L, 4L);
  }

  /** Letter is 8.5 in × 11 in. */
  @Test
  void printsOnLetter() throws IOException {
    String pdf = printed("letter");
    assertThat(pdf).contains("/MediaBox [0 0 612 792]");
    assertThat(PAGE.matcher(pdf).results().count()).as("pages for 24 cuts").isBetween(2L, 4L);
  }

  /** Nothing is cut off or pushes the page wider than a phone. */
  @Test
  void fitsAPhone() throws IOException {
    browser.shape(390, 844, "dark");
    open("phone", html);
    assertThat(browser.number("return document.documentElement.scrollWidth")).isEqualTo(390);
    assertThat(
            browser.number(
                "return [...document.querySelectorAll('body *:not(svg *)')].filter((e) =>"
                    + " e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 0).length"))
        .isZero();
  }

  private static String printed(String paper) throws IOException {
    browser.shape(1280, 800, "light");
    open(paper, html.replace("@page {", "@page { size: " + paper + ";"));
    return new String(browser.printed(), StandardCharsets.ISO_8859_1);
  }

  private static void open(String name, String page) throws IOException {
    browser.open(Files.writeString(folder.resolve(name + ".html"), page).toUri().toString());
  }
}
