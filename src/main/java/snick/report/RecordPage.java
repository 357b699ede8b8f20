package snick.report;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import snick.force.budget.Calibration;
import snick.force.budget.CombinedUncertainty;
import snick.force.budget.Contribution;
import snick.force.budget.Evaluation;
import snick.force.mass.AirDensity;
import snick.force.mass.Gravity;
import snick.force.reading.Deflection;
import snick.force.reading.RigSetting;
import snick.phrase.Phrase;
import snick.phrase.Words;
import snick.report.Block.Column;
import snick.report.plot.BudgetPlot;
import snick.report.plot.CalibrationPlot;
import snick.report.plot.ControlCharts;
import snick.report.plot.Picture;
import snick.report.sheet.BenchSheet;
import snick.report.sheet.CalibrationRecord;
import snick.store.record.Verification;

/** A calibration record as one self-contained HTML page that prints well. */
public final class RecordPage {
  private final List<Document.Section> sections = new ArrayList<>();
  private final CalibrationRecord record;
  private final Calibration calibration;
  private final Words words;

  private RecordPage(CalibrationRecord record, Words words) {
    this.record = record;
    this.words = words;
    this.calibration = record.calibration();
  }

  /**
   * The page; needs nothing from elsewhere. What was written into the calibration when it was made
   * (its basis, that of each term, of gravity, air and masses) stays as it was written.
   */
  public static String of(CalibrationRecord record, Words words) {
    return HtmlPage.of(new RecordPage(record, words).document());
  }

  private Document document() {
    summary();
    record.evaluation().ifPresent(this::evaluation);
    budget();
    record.sheet().ifPresent(this::masses);
    record.evaluation().ifPresent(this::data);
    verifications();
    section("method", paragraph("method_is"), paragraph("cautions"));
    Block what = new Block.Notice(words.say(CalibrationRecord.WHAT_IT_IS));
    return new Document(words, say("title"), List.of(what), sections);
  }

  private void section(String title, Block... blocks) {
    sections.add(new Document.Section(say(title), List.of(blocks)));
  }

  private Block paragraph(String key) {
    return new Block.Paragraph(say(key));
  }

  private Column words(String key) {
    return Column.words(say(key));
  }

  private Column figures(String key) {
    return Column.figures(say(key));
  }

  private String say(String key, Object... values) {
    return words.say("record." + key, values);
  }

  private void summary() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of(say("id"), calibration.id()));
    rows.add(List.of(say("made"), second(calibration.made())));
    rows.add(List.of(say("valid"), valid()));
    calibration.boundTo().ifPresent(rig -> rows.add(List.of(say("rig"), rig(rig))));
    rows.add(List.of(say("range"), range()));
    rows.add(List.of(say("good_to"), MethodChapter.uncertainty(words, calibration)));
    rows.add(List.of(say("curve"), curve()));
    rows.add(List.of(say("basis"), calibration.basis()));
    record.sheet().ifPresent(sheet -> rows.addAll(place(sheet)));
    record.remarks().forEach(remark -> rows.add(List.of(say("note"), words.say(remark))));
    section("calibration", new Block.Grid(List.of(Column.words(""), Column.words("")), rows));
  }

  private String valid() {
    return calibration
        .validFor()
        .map(d -> say("valid_until", "at", second(calibration.made().plus(d))))
        .orElseGet(() -> say("no_period"));
  }

  private String range() {
    return MethodChapter.typed(calibration)
        ? say("typed_in")
        : words.say(
            Phrase.of("record.range_is")
                .with("from", newtons(calibration.range().from().newtons()))
                .with("to", newtons(calibration.range().to().newtons())));
  }

  /** What prints text tells neither gain nor rate. */
  private String rig(RigSetting rig) {
    if (rig.deviceId().startsWith("text:")) {
      return say("rig_of_text", "rig", rig.deviceId(), "polarity", rig.polarity());
    }
    return words.say(
        Phrase.of("record.rig_is")
            .with("rig", rig.deviceId())
            .with("gain", rig.gain())
            .with("rate", fixed(rig.nominalRate().hertz(), 1))
            .with("polarity", rig.polarity()));
  }

  private static String second(Instant instant) {
    return instant.truncatedTo(ChronoUnit.SECONDS).toString();
  }

  private List<List<String>> place(BenchSheet sheet) {
    Gravity gravity = sheet.conditions().gravity();
    AirDensity air = sheet.conditions().air();
    String ofGravity =
        words.say(
            Phrase.of("record.gravity_is")
                .with("g", digits(gravity.metresPerSecondSquared()))
                .with("u", significant(gravity.standardUncertainty()))
                .with("basis", gravity.basis()));
    String ofAir =
        words.say(
            Phrase.of("record.air_is")
                .with("density", digits(air.kilogramsPerCubicMetre()))
                .with("u", significant(air.standardUncertainty()))
                .with("basis", air.basis()));
    return List.of(List.of(say("gravity"), ofGravity), List.of(say("air"), ofAir));
  }

  private String curve() {
    double[] coefficients = calibration.curve().coefficients();
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < coefficients.length; i++) {
      if (coefficients[i] != 0) {
        text.append(text.length() == 0 ? "" : " + ")
            .append(digits(coefficients[i]))
            .append(i == 0 ? "" : "·F")
            .append(i > 1 ? "^" + i : "");
      }
    }
    return say("curve_is", "sum", text);
  }

  private void evaluation(Evaluation evaluation) {
    List<List<String>> rows =
        evaluation.figures().stream()
            .map(
                figure ->
                    List.of(
                        words.say(figure.name()),
                        significant(figure.value()) + " " + figure.unit(),
                        words.say(figure.definition()),
                        words.say(figure.source())))
            .toList();
    section(
        "merit",
        new Block.Grid(
            List.of(
                words("merit_figure"),
                figures("merit_value"),
                words("merit_definition"),
                words("source")),
            rows),
        paragraph("no_classification"),
        new Block.Drawing(
            CalibrationPlot.beside(calibration, evaluation.deflections(), words),
            say("residuals")));
  }

  private void budget() {
    List<CombinedUncertainty> at = record.budget();
    List<List<String>> rows = new ArrayList<>();
    for (int part = 0; part < at.get(0).parts().size() - 1; part++) {
      int term = part;
      Contribution first = at.get(0).parts().get(part);
      rows.add(
          sums(
              words.named("budget", first.source()),
              words.named("distribution", first.distribution()),
              first.standardUncertaintyNewtons() > 0 ? freedom(first.degreesOfFreedom()) : "",
              u -> unlessNone(u.parts().get(term).standardUncertaintyNewtons())));
    }
    rows.add(sums(say("combined"), "", "", u -> gramForce(u.standardNewtons(), 4)));
    rows.add(sums(say("effective_freedom"), "", "", u -> freedom(u.degreesOfFreedom())));
    rows.add(sums(say("coverage"), "", "", u -> fixed(u.coverageFactor(), 2)));
    rows.add(sums(say("expanded"), "", "", u -> gramForce(u.expandedNewtons(), 4)));
    List<Column> columns =
        new ArrayList<>(List.of(words("source"), words("distribution"), figures("freedom")));
    at.forEach(u -> columns.add(Column.figures(gramForce(u.newtons(), 1) + " gf")));
    section(
        "budget",
        new Block.Grid(columns, rows),
        new Block.Drawing(BudgetPlot.of(calibration, words), say("peak_adds")));
    section(
        "terms",
        new Block.Grid(
            List.of(words("source"), words("basis")),
            calibration.terms().stream()
                .map(term -> List.of(words.named("budget", term.source()), term.basis()))
                .toList()));
  }

  private List<String> sums(
      String name,
      String distribution,
      String freedom,
      Function<CombinedUncertainty, String> value) {
    List<String> cells = new ArrayList<>(List.of(name, distribution, freedom));
    record.budget().forEach(u -> cells.add(value.apply(u)));
    return cells;
  }

  private void masses(BenchSheet sheet) {
    List<List<String>> rows =
        sheet.data().runs().stream()
            .flatMap(run -> run.loaded().stream())
            .flatMap(loaded -> loaded.load().masses().stream())
            .distinct()
            .map(
                mass ->
                    List.of(
                        mass.name(),
                        digits(mass.conventionalMass().grams()),
                        significant(1000 * mass.standardUncertainty().grams()),
                        mass.basis()))
            .toList();
    section(
        "masses",
        new Block.Grid(
            List.of(
                words("mass_name"),
                figures("mass_grams"),
                figures("mass_uncertainty"),
                words("basis")),
            rows));
  }

  private void data(Evaluation evaluation) {
    section(
        "data",
        new Block.Grid(
            List.of(
                figures("run"),
                words("direction"),
                words("load"),
                figures("force"),
                figures("deflection"),
                figures("less_curve")),
            evaluation.deflections().stream().map(this::point).toList()));
  }

  private List<String> point(Deflection point) {
    double counts = point.counts() - calibration.curve().deflectionCounts(point.newtons());
    return List.of(
        Integer.toString(point.run()),
        words.named("loading", point.direction()),
        point.load(),
        fixed(point.newtons(), 6),
        fixed(point.counts(), 1),
        gramForce(counts / calibration.curve().slopeCountsPerNewton(point.newtons()), 3));
  }

  private void verifications() {
    if (record.verifications().isEmpty()) {
      return;
    }
    Block checks =
        new Block.Grid(
            List.of(
                words("when"),
                figures("known"),
                figures("shown"),
                figures("limit"),
                words("within")),
            record.verifications().stream().map(this::check).toList());
    if (record.verifications().size() < ControlCharts.FEWEST) {
      section("checks", checks);
      return;
    }
    Picture chart = ControlCharts.of(record.verifications()).picture(words);
    section("checks", checks, new Block.Drawing(chart, say("control_chart")));
  }

  private List<String> check(Verification check) {
    return List.of(
        second(check.at()),
        gramForce(check.known().value().newtons(), 2),
        gramForce(check.shown().value().newtons(), 2),
        gramForce(check.limit().newtons(), 2),
        say(check.withinLimit() ? "yes" : "no"));
  }

  private static String newtons(double newtons) {
    return fixed(newtons, 4) + " N (" + gramForce(newtons, 1) + " gf)";
  }

  private static String gramForce(double newtons, int decimals) {
    return fixed(BudgetPlot.gramForce(newtons), decimals);
  }

  /** What adds nothing shows no digits: they would look like a measured nothing. */
  private static String unlessNone(double newtons) {
    return newtons > 0 ? gramForce(newtons, 4) : "0";
  }

  private static String freedom(double degreesOfFreedom) {
    return Double.isInfinite(degreesOfFreedom) ? "∞" : fixed(degreesOfFreedom, 0);
  }

  private static String fixed(double value, int decimals) {
    return String.format(Locale.ROOT, "%." + decimals + "f", value);
  }

  private static String significant(double value) {
    return String.format(Locale.ROOT, "%.3g", value);
  }

  private static String digits(double value) {
    return String.format(Locale.ROOT, "%.9g", value);
  }
}
