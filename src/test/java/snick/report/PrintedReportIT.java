package snick.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.Needs;
import snick.phrase.Words;
import snick.store.StoreReader;
import snick.verdict.comparison.Judge;
import snick.view.Browser;

/** Prints a report with Debian's Chromium, where it is installed. */
class PrintedReportIT {
  private static final Path CHROMIUM = Path.of("/usr/bin/chromium");
  private static final Pattern PAGE = Pattern.compile("/Type /Page\\s");

  @TempDir Path folder;
  private String html;

  @BeforeEach
  void report() {
    Needs.tool(Files.isExecutable(CHROMIUM), "no chromium", "the report on paper");
    Path data = folder.resolve("data");
    InventedEvening.in(data, InventedEvening.HOSTILE);
    try (StoreReader store = StoreReader.open(data)) {
      html =
          SessionReport.of(store, InventedEvening.SESSION, Judge.plain(), false, Words.english())
              .html();
    }
  }

  /** Sizes of the paper in points of 1/72 inch: ISO 216 A4 is 210 mm × 297 mm. */
  @Test
  void printsOnA4() throws IOException, InterruptedException {
    String pdf = printed("A4");
    assertThat(pdf).contains("/MediaBox [0 0 594.95996 841.91998]");
    assertThat(PAGE.matcher(pdf).results().count()).as("pages for 24 cuts").isBetween(2L, 4L);
  }

  /** Letter is 8.5 in × 11 in. */
  @Test
  void printsOnLetter() throws IOException, InterruptedException {
    String pdf = printed("letter");
    assertThat(pdf).contains("/MediaBox [0 0 612 792]");
    assertThat(PAGE.matcher(pdf).results().count()).as("pages for 24 cuts").isBetween(2L, 4L);
  }

  /** Nothing is cut off or pushes the page wider than a phone. */
  @Test
  void fitsAPhone() throws IOException {
    Path page = folder.resolve("report.html");
    Files.writeString(page, html);
    try (Browser browser = Browser.start(folder.resolve("phone"))) {
      browser.shape(390, 844, "dark");
      browser.open(page.toUri().toString());
      assertThat(browser.number("return document.documentElement.scrollWidth")).isEqualTo(390);
      assertThat(
              browser.number(
                  "return [...document.querySelectorAll('body *:not(svg *)')].filter((e) =>"
                      + " e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 0).length"))
          .isZero();
    }
  }

  private String printed(String paper) throws IOException, InterruptedException {
    Path page = folder.resolve("report.html");
    Path pdf = folder.resolve("report.pdf");
    Files.writeString(page, html.replace("@page {", "@page { size: " + paper + ";"));
    Process chromium =
        new ProcessBuilder(
                CHROMIUM.toString(),
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--user-data-dir=" + folder.resolve("profile"),
                "--no-pdf-header-footer",
                "--print-to-pdf=" + pdf,
                page.toUri().toString())
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("chromium.log").toFile())
            .start();
    assertThat(chromium.waitFor(60, TimeUnit.SECONDS)).isTrue();
    return Files.readString(pdf, StandardCharsets.ISO_8859_1);
  }
}
