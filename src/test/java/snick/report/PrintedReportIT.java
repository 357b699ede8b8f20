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
import snick.store.StoreReader;
import snick.verdict.comparison.Judge;

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
      html = SessionReport.of(store, InventedEvening.SESSION, Judge.plain(), false).html();
    }
  }

  /** Sizes of the paper in points of 1/72 inch: ISO 216 A4 is 210 mm × 297 mm. */
  @Test
  void printsOnA4() throws IOException, InterruptedException {
    String pdf = printed("A4");
    assertThat(pdf).contains("/MediaBox [0 0 594.95996 841.91998]");
    assertThat(PAGE.matcher(pdf).results().count()).isBetween(4L, 9L);
  }

  /** Letter is 8.5 in × 11 in. */
  @Test
  void printsOnLetter() throws IOException, InterruptedException {
    String pdf = printed("letter");
    assertThat(pdf).contains("/MediaBox [0 0 612 792]");
    assertThat(PAGE.matcher(pdf).results().count()).isBetween(4L, 9L);
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
