package snick.report;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import snick.force.budget.Calibration;
import snick.force.budget.CombinedUncertainty;
import snick.force.budget.Contribution;
import snick.force.budget.Evaluation;
import snick.force.budget.Figure;
import snick.force.mass.AirDensity;
import snick.force.mass.Gravity;
import snick.force.reading.Deflection;
import snick.force.reading.RigSetting;
import snick.phrase.Words;
import snick.report.plot.CalibrationCharts;
import snick.report.plot.ControlCharts;
import snick.report.plot.Picture;
import snick.report.sheet.BenchSheet;
import snick.report.sheet.CalibrationRecord;
import snick.store.record.Verification;

/** A calibration record as one self-contained HTML page that prints well. */
public final class RecordPage {
  private static final String HEAD =
      """
      <!DOCTYPE html>
      <html lang="LANGUAGE"><head><meta charset="utf-8">
      <meta name="viewport" content="width=device-width, initial-scale=1">
      <title>TITLE</title>
      <style>
      body { font: 15px/1.45 system-ui, sans-serif; color: #222; max-width: 50rem; margin: 2rem auto; padding: 0 1rem; }
      h1 { font-size: 1.5rem; margin-bottom: .2rem; } h2 { font-size: 1.1rem; margin: 1.6rem 0 .4rem; }
      table { border-collapse: collapse; width: 100%; font-size: .88rem; }
      th, td { border-bottom: 1px solid #ccc; padding: .2rem .5rem; text-align: left; vertical-align: top; }
      td.n, th.n { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; }
      figure { margin: 1rem 0; } svg { max-width: 100%; height: auto; }
      .what { border: 2px solid #222; padding: .4rem .8rem; font-weight: 600; }
      .wide { overflow-x: auto; }
      @media print { body { margin: 0; max-width: none; font-size: 11px; } h2 { break-after: avoid; } table, figure { break-inside: avoid; } }
      </style></head><body>
      """;

  private final StringBuilder html = new StringBuilder();
  private int figures;
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
    return new RecordPage(record, words).page();
  }

  private String page() {
    String title = escape(say("title"));
    html.append(HEAD.replace("LANGUAGE", words.language()).replace("TITLE", title))
        .append("<h1>")
        .append(title)
        .append("</h1>\n<p class=\"what\">")
        .append(escape(words.say(CalibrationRecord.WHAT_IT_IS)))
        .append("</p>\n");
    summary();
    record.evaluation().ifPresent(this::evaluation);
    budget();
    record.sheet().ifPresent(this::masses);
    record.evaluation().ifPresent(this::data);
    verifications();
    method();
    return html.append("</body></html>\n").toString();
  }

  private String say(String key, Object... values) {
    return words.say("record." + key, values);
  }

  private void summary() {
    begin(say("calibration"));
    row(say("id"), calibration.id());
    row(say("made"), second(calibration.made()));
    row(
        say("valid"),
        calibration
            .validFor()
            .map(d -> say("valid_until", "at", second(calibration.made().plus(d))))
            .orElseGet(() -> say("no_period")));
    calibration.boundTo().ifPresent(rig -> row(say("rig"), rig(rig)));
    row(say("range"), range());
    row(say("good_to"), MethodChapter.uncertainty(words, calibration));
    row(say("curve"), curve());
    row(say("basis"), calibration.basis());
    record.sheet().ifPresent(this::place);
    record.remarks().forEach(remark -> row(say("note"), words.say(remark)));
    end();
  }

  private String range() {
    return MethodChapter.typed(calibration)
        ? say("typed_in")
        : say(
            "range_is",
            "from",
            newtons(calibration.range().from().newtons()),
            "to",
            newtons(calibration.range().to().newtons()));
  }

  /** What prints text tells neither gain nor rate. */
  private String rig(RigSetting rig) {
    if (rig.deviceId().startsWith("text:")) {
      return say("rig_of_text", "rig", rig.deviceId(), "polarity", rig.polarity());
    }
    return say(
        "rig_is",
        "rig",
        rig.deviceId(),
        "gain",
        rig.gain(),
        "rate",
        fixed(rig.nominalRate().hertz(), 1),
        "polarity",
        rig.polarity());
  }

  private static String second(Instant instant) {
    return instant.truncatedTo(ChronoUnit.SECONDS).toString();
  }

  private void place(BenchSheet sheet) {
    Gravity gravity = sheet.conditions().gravity();
    AirDensity air = sheet.conditions().air();
    row(
        say("gravity"),
        say(
            "gravity_is",
            "g",
            digits(gravity.metresPerSecondSquared()),
            "u",
            significant(gravity.standardUncertainty()),
            "basis",
            gravity.basis()));
    row(
        say("air"),
        say(
            "air_is",
            "density",
            digits(air.kilogramsPerCubicMetre()),
            "u",
            significant(air.standardUncertainty()),
            "basis",
            air.basis()));
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
    begin(
        say("merit"),
        say("merit_figure"),
        ">" + say("merit_value"),
        say("merit_definition"),
        say("source"));
    for (Figure figure : evaluation.figures()) {
      cells(
          words.say(figure.name()),
          ">" + significant(figure.value()) + " " + figure.unit(),
          words.say(figure.definition()),
          words.say(figure.source()));
    }
    end();
    paragraph(say("no_classification"));
    figure(CalibrationCharts.residuals(calibration, evaluation, words), say("residuals"));
  }

  private void budget() {
    List<CombinedUncertainty> columns = record.budget();
    String[] heads = new String[columns.size() + 3];
    heads[0] = say("source");
    heads[1] = say("distribution");
    heads[2] = ">" + say("freedom");
    for (int i = 0; i < columns.size(); i++) {
      heads[i + 3] = ">" + gramForce(columns.get(i).newtons(), 1) + " gf";
    }
    begin(say("budget"), heads);
    for (int part = 0; part < columns.get(0).parts().size() - 1; part++) {
      int at = part;
      Contribution first = columns.get(0).parts().get(part);
      sums(
          columns,
          words.named("budget", first.source()),
          words.named("distribution", first.distribution()),
          first.standardUncertaintyNewtons() > 0 ? freedom(first.degreesOfFreedom()) : "",
          u -> unlessNone(u.parts().get(at).standardUncertaintyNewtons()));
    }
    sums(columns, say("combined"), "", "", u -> gramForce(u.standardNewtons(), 4));
    sums(columns, say("effective_freedom"), "", "", u -> freedom(u.degreesOfFreedom()));
    sums(columns, say("coverage"), "", "", u -> fixed(u.coverageFactor(), 2));
    sums(columns, say("expanded"), "", "", u -> gramForce(u.expandedNewtons(), 4));
    end();
    figure(CalibrationCharts.budget(calibration, words), say("peak_adds"));
    begin(say("terms"), say("source"), say("basis"));
    calibration.terms().forEach(term -> cells(words.named("budget", term.source()), term.basis()));
    end();
  }

  private void sums(
      List<CombinedUncertainty> columns,
      String name,
      String distribution,
      String freedom,
      Function<CombinedUncertainty, String> value) {
    String[] cells = new String[columns.size() + 3];
    cells[0] = name;
    cells[1] = distribution;
    cells[2] = ">" + freedom;
    for (int i = 0; i < columns.size(); i++) {
      cells[i + 3] = ">" + value.apply(columns.get(i));
    }
    cells(cells);
  }

  private void masses(BenchSheet sheet) {
    begin(
        say("masses"),
        say("mass_name"),
        ">" + say("mass_grams"),
        ">" + say("mass_uncertainty"),
        say("basis"));
    sheet.data().runs().stream()
        .flatMap(run -> run.loaded().stream())
        .flatMap(loaded -> loaded.load().masses().stream())
        .distinct()
        .forEach(
            mass ->
                cells(
                    mass.name(),
                    ">" + digits(mass.conventionalMass().grams()),
                    ">" + significant(1000 * mass.standardUncertainty().grams()),
                    mass.basis()));
    end();
  }

  private void data(Evaluation evaluation) {
    begin(
        say("data"),
        ">" + say("run"),
        say("direction"),
        say("load"),
        ">" + say("force"),
        ">" + say("deflection"),
        ">" + say("less_curve"));
    for (Deflection point : evaluation.deflections()) {
      double counts = point.counts() - calibration.curve().deflectionCounts(point.newtons());
      cells(
          ">" + point.run(),
          words.named("loading", point.direction()),
          point.load(),
          ">" + fixed(point.newtons(), 6),
          ">" + fixed(point.counts(), 1),
          ">" + gramForce(counts / calibration.curve().slopeCountsPerNewton(point.newtons()), 3));
    }
    end();
  }

  private void verifications() {
    if (record.verifications().isEmpty()) {
      return;
    }
    begin(
        say("checks"),
        say("when"),
        ">" + say("known"),
        ">" + say("shown"),
        ">" + say("limit"),
        say("within"));
    for (Verification check : record.verifications()) {
      cells(
          second(check.at()),
          ">" + gramForce(check.known().value().newtons(), 2),
          ">" + gramForce(check.shown().value().newtons(), 2),
          ">" + gramForce(check.limit().newtons(), 2),
          say(check.withinLimit() ? "yes" : "no"));
    }
    end();
    if (record.verifications().size() >= ControlCharts.FEWEST) {
      figure(ControlCharts.of(record.verifications()).picture(words), say("control_chart"));
    }
  }

  private void method() {
    html.append("<h2>").append(escape(say("method"))).append("</h2>\n");
    paragraph(say("method_is"));
    paragraph(say("cautions"));
  }

  private void figure(Picture picture, String caption) {
    html.append("<figure>")
        .append(picture.element("figure" + ++figures))
        .append("<figcaption>")
        .append(escape(caption))
        .append("</figcaption></figure>\n");
  }

  private void begin(String title, String... heads) {
    html.append("<h2>").append(escape(title)).append("</h2>\n<div class=\"wide\"><table>\n");
    if (heads.length > 0) {
      row("th", heads);
    }
  }

  private void row(String name, String value) {
    html.append("<tr><th>")
        .append(escape(name))
        .append("</th><td>")
        .append(escape(value))
        .append("</td></tr>\n");
  }

  private void cells(String... cells) {
    row("td", cells);
  }

  private void row(String tag, String... cells) {
    html.append("<tr>");
    for (String cell : cells) {
      boolean number = cell.startsWith(">");
      html.append('<')
          .append(tag)
          .append(number ? " class=\"n\">" : ">")
          .append(escape(number ? cell.substring(1) : cell))
          .append("</")
          .append(tag)
          .append('>');
    }
    html.append("</tr>\n");
  }

  private void end() {
    html.append("</table></div>\n");
  }

  private void paragraph(String text) {
    html.append("<p>").append(escape(text)).append("</p>\n");
  }

  private static String escape(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }

  private static String newtons(double newtons) {
    return fixed(newtons, 4) + " N (" + gramForce(newtons, 1) + " gf)";
  }

  private static String gramForce(double newtons, int decimals) {
    return fixed(CalibrationCharts.gramForce(newtons), decimals);
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
