package snick.report.plot;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Point;
import java.awt.Rectangle;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.knowm.xchart.XYChart;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import snick.Pseudo;
import snick.cut.CutFigures;
import snick.cut.Outcome;
import snick.force.budget.Calibration;
import snick.journal.Blade;
import snick.journal.Stage;
import snick.phrase.NotAccepted;
import snick.phrase.Words;
import snick.report.InventedEvening;
import snick.report.Xml;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.store.record.Derivation;
import snick.store.record.StoredCut;
import snick.store.record.Verification;
import snick.verdict.comparison.Judge;
import snick.verdict.statistic.Readings;
import snick.verdict.study.ReferenceChart;

class PictureTest {
  @TempDir static Path directory;
  private static StoreReader store;
  private static SessionEvidence evidence;

  @BeforeAll
  static void open() {
    InventedEvening.in(directory, InventedEvening.HOSTILE);
    store = StoreReader.open(directory);
    evidence = SessionEvidence.read(store, InventedEvening.SESSION);
  }

  @AfterAll
  static void close() {
    store.close();
  }

  private static List<Verification> checks() {
    return store.verifications(InventedEvening.RIG);
  }

  private static Picture cut() {
    StoredCut cut = store.cut(1).orElseThrow();
    return CutPlot.of(cut, CutPlot.calibration(store, cut.summary()), Words.english());
  }

  private static Picture stage(int order) {
    List<CutSummary> cuts = new ArrayList<>();
    store.forEachSummary(
        CutSelection.all().inStage(InventedEvening.SESSION, evidence.log().stages().get(order)),
        cuts::add);
    return StagePlot.of(
        evidence.log().session(), evidence.log().stages().get(order), cuts, Words.english());
  }

  private static Picture progression() {
    return ProgressionPlot.of(
        evidence.log().session(), evidence.stages(), Judge.plain(), Words.english());
  }

  private static String words(Picture picture) {
    Document svg = Xml.parse(new String(picture.svg(), UTF_8));
    Element root = svg.getDocumentElement();
    assertThat(root.getTagName()).isEqualTo("svg");
    assertThat(root.getAttribute("role")).isEqualTo("img");
    return svg.getElementsByTagName("title").item(0).getTextContent()
        + ". "
        + svg.getElementsByTagName("desc").item(0).getTextContent();
  }

  @Test
  void aCutTellsForceOutcomeAndInterval() {
    assertThat(words(cut()))
        .contains("Cut 1: Parted at once")
        .contains("Largest sample 1.858 N")
        .contains("Estimate at the break 1.8956 ± 0.0054 N = 193.30 ± 0.55 gf")
        .contains("k = 2");
  }

  @Test
  void aCutWithoutCalibrationIsDrawnInCounts() {
    assertThat(words(CutPlot.of(store.cut(1).orElseThrow(), Optional.empty(), Words.english())))
        .contains("Reading in counts")
        .contains("Largest sample 82830 counts");
  }

  /** The stream broke while the load was on: what rest came after is not known. */
  @Test
  void aTruncatedCutHasNoZeroAfter() {
    StoredCut whole = store.cut(1).orElseThrow();
    CutSummary summary = whole.summary();
    CutFigures severed = summary.figures();
    CutFigures truncated =
        new CutFigures(
            Outcome.TRUNCATED,
            1,
            severed.onsetNanos(),
            OptionalLong.empty(),
            severed.peak(),
            severed.shape(),
            severed.rest(),
            Set.of());
    Derivation result = new Derivation(0, 1, summary.occurredAt(), truncated, Optional.empty());
    CutSummary told =
        new CutSummary(
            summary.id(),
            summary.recordingId(),
            summary.number(),
            summary.occurredAt(),
            summary.samples(),
            new CutSummary.Standing(result, Optional.empty(), Optional.empty()),
            summary.place(),
            Optional.empty());
    StoredCut broken = new StoredCut(told, whole.trace(), whole.response());
    String after = Words.english().say("draw.zero_after");
    assertThat(cut().texts()).contains(after);
    assertThat(CutPlot.of(broken, Optional.empty(), Words.english()).texts()).doesNotContain(after);
  }

  @Test
  void aStageTellsMeanIntervalAndWhatIsSetAside() {
    assertThat(words(stage(1)))
        .contains("6 cuts")
        .contains("place from the heel in mm")
        .contains("mean 1.286 N = 131.2 gf, 95 % interval 124.")
        .contains("Set aside: 1.");
  }

  @Test
  void aProgressionTellsEveryStageInNewtonsAndGramForce() {
    assertThat(words(progression()))
        .contains("‘as found’: mean 2.034 N = 207.4 gf")
        .contains("5 cuts")
        .contains("<script>");
  }

  @Test
  void aCalibrationTellsItsUncertainty() {
    assertThat(
            words(
                CalibrationPlot.of(
                    store.calibrations().get(0).calibration(), List.of(), Words.english())))
        .contains("10.000 N = 1019.7 gf")
        .contains("Expanded uncertainty (95 %) at the largest force 19.60 mN");
  }

  /** Every kind of picture, with names as long and hostile as people may type them. */
  private static List<Picture> every(Words words) {
    StoredCut cut = store.cut(1).orElseThrow();
    Calibration calibration = store.calibrations().get(0).calibration();
    Readings baseline = Readings.ofGramForce("baseline", 91, 94, 90, 95, 93, 92, 96, 91);
    Readings later = Readings.ofGramForce("later", 95, 92, 118);
    Blade blade = store.journal().blades().get(0);
    List<CutSummary> cuts = new ArrayList<>();
    Stage stage = evidence.log().stages().get(1);
    store.forEachSummary(CutSelection.all().inStage(InventedEvening.SESSION, stage), cuts::add);
    return List.of(
        CutPlot.of(cut, CutPlot.calibration(store, cut.summary()), words),
        CutPlot.of(cut, Optional.empty(), words),
        StagePlot.of(evidence.log().session(), stage, cuts, words),
        ProgressionPlot.of(
            evidence.log().session(), evidence.stages(), Judge.withMarginGf(8), words),
        HistoryPlot.of(BladeStory.read(store, blade, OptionalDouble.empty()), words),
        CalibrationPlot.of(calibration, List.of(), words),
        BudgetPlot.of(calibration, words),
        ResponsePlot.of(ResponsePlotTest.response(), InventedEvening.RIG, 320, words),
        ControlCharts.of(checks()).picture(words),
        ControlPlot.ofReferenceEdge(
            InventedEvening.SESSION, ReferenceChart.of(baseline, later), later, words));
  }

  /** Letters are drawn as shapes, so the words are asked for before they are drawn. */
  @Test
  void everyWordInThemCanBeTranslated() {
    for (Picture picture : every(Pseudo.words())) {
      Pseudo.assertNoEnglish(
          picture.title(), String.join("\n", picture.texts()), InventedEvening.NAMES);
    }
  }

  /** Many languages need a third more room than English. */
  private static Words longer() {
    Map<String, String> texts = new TreeMap<>();
    Words.english()
        .texts()
        .forEach((key, text) -> texts.put(key, text + " " + "n".repeat(text.length() / 3)));
    return Words.of("en-x-longer", texts);
  }

  /** Axis labels, numbers, names of series, titles and notes: each chart, and the whole. */
  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void allOfAPictureIsInside(boolean longer) {
    for (Picture picture : every(longer ? longer() : Words.english())) {
      Stream.concat(Stream.of(picture), picture.parts().stream())
          .forEach(
              part -> {
                Canvas asPng = new Canvas(part, 2, false);
                Canvas asSvg = new Canvas(part, 1, true);
                assertThat(asPng.outside()).as(part.title() + ", as PNG").isEmpty();
                assertThat(asSvg.outside()).as(part.title() + ", as SVG").isEmpty();
              });
    }
  }

  /** A picture with paper around it, to see what sticks out. */
  private static final class Canvas {
    private static final int PAPER = 300;
    private final BufferedImage image;
    private final Rectangle picture;

    Canvas(Picture picture, int scale, boolean fractionalWidths) {
      this.picture =
          new Rectangle(PAPER, PAPER, picture.width() * scale, picture.wholeHeight() * scale);
      image =
          new BufferedImage(
              this.picture.width + 2 * PAPER,
              this.picture.height + 2 * PAPER,
              BufferedImage.TYPE_INT_RGB);
      Graphics2D graphics = image.createGraphics();
      graphics.setColor(Color.WHITE);
      graphics.fillRect(0, 0, image.getWidth(), image.getHeight());
      graphics.setRenderingHint(
          RenderingHints.KEY_FRACTIONALMETRICS,
          fractionalWidths
              ? RenderingHints.VALUE_FRACTIONALMETRICS_ON
              : RenderingHints.VALUE_FRACTIONALMETRICS_OFF);
      graphics.translate(PAPER, PAPER);
      graphics.scale(scale, scale);
      picture.paint(graphics);
      graphics.dispose();
    }

    /** Where there is ink outside the picture. */
    List<Point> outside() {
      List<Point> outside = new ArrayList<>();
      for (int x = 0; x < image.getWidth(); x++) {
        for (int y = 0; y < image.getHeight(); y++) {
          if (!picture.contains(x, y) && image.getRGB(x, y) != Color.WHITE.getRGB()) {
            outside.add(new Point(x - PAPER, y - PAPER));
          }
        }
      }
      return outside;
    }
  }

  @Test
  void aControlChartTellsItsSignals() {
    Readings baseline = Readings.ofGramForce("baseline", 91, 94, 90, 95, 93, 92, 96, 91);
    Readings later = Readings.ofGramForce("later", 95, 92, 118);
    Picture chart =
        ControlPlot.ofReferenceEdge(
            "edge", ReferenceChart.of(baseline, later), later, Words.english());
    assertThat(words(chart)).contains("3 cuts against limits of").contains("signals");
  }

  @Test
  void axesCarryUnitsAndTheSameScaleTwice() {
    XYChart chart =
        new ForceChart(Words.english(), "t", "place / mm").newtons(0, 2).fromTo(0, 1).chart();
    assertThat(chart.getYAxisTitle()).isEqualTo("Force (N)");
    assertThat(chart.getYAxisGroupTitle(1)).isEqualTo("Force (gf)");
    assertThat(chart.getXAxisTitle()).isEqualTo("place / mm");
    // 1 gf = 0.00980665 N exactly (CGPM 1901).
    assertThat(chart.getStyler().getYAxisMax(1)).isEqualTo(2 / 0.00980665);
  }

  @Test
  void theSameInputGivesTheSameBytes() {
    assertThat(cut().svg()).isEqualTo(cut().svg());
    assertThat(cut().png()).isEqualTo(cut().png());
    assertThat(progression().svg()).isEqualTo(progression().svg());
  }

  @Test
  void numbersAreShort() {
    assertThat(new String(cut().svg(), UTF_8))
        .doesNotContainPattern("=\"[^\"]*\\d\\.\\d{3,}[^\"]*\"");
    assertThat(cut().svg().length).isLessThan(300_000);
  }

  /** As large as in the PNG, and without serifs also where the font is not there. */
  @Test
  void theLinesUnderAPictureSayTheirSize() {
    assertThat(new String(cut().svg(), UTF_8))
        .containsPattern("<text[^>]*font-family:[^>]*,sans-serif;font-size:14px;")
        .doesNotContainPattern("<text(?![^>]*font-size:14px;)");
  }

  /** 920 units at 10 a letter: what is longer sticks out in a browser. */
  @Test
  void noLineUnderAPictureSticksOut() {
    List<String> texts =
        Pattern.compile("<text[^>]*>([^<]*)</text>")
            .matcher(new String(cut().svg(), UTF_8))
            .results()
            .map(text -> text.group(1).strip())
            .toList();
    assertThat(texts)
        .contains("follows the rising load to the instant of the break.")
        .allMatch(t -> t.length() <= 92);
  }

  @Test
  void aPngIsSharpAndNotEmpty() throws IOException {
    BufferedImage image = ImageIO.read(new ByteArrayInputStream(cut().png()));
    assertThat(image.getWidth()).isEqualTo(1840);
    assertThat(image.getHeight()).isEqualTo(980);
    Set<Integer> colours = new HashSet<>();
    for (int x = 0; x < image.getWidth(); x++) {
      for (int y = 0; y < image.getHeight(); y++) {
        colours.add(image.getRGB(x, y));
      }
    }
    assertThat(colours).contains(Look.BLUE.getRGB(), Look.VERMILION.getRGB(), Look.GREEN.getRGB());
  }

  @Test
  void aSessionWithoutForcesSaysWhatIsMissing() {
    assertThatThrownBy(
            () ->
                ProgressionPlot.of(
                    evidence.log().session(), List.of(), Judge.plain(), Words.english()))
        .isInstanceOf(NotAccepted.class)
        .hasMessageContaining("no cut with a cut-through force");
  }
}
