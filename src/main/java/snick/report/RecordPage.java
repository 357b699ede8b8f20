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
import snick.force.reading.Deflection;
import snick.report.plot.CalibrationCharts;
import snick.report.plot.ControlCharts;
import snick.report.plot.Picture;
import snick.report.sheet.BenchSheet;
import snick.report.sheet.CalibrationRecord;
import snick.report.word.Words;
import snick.store.record.Verification;

/** A calibration record as one self-contained HTML page that prints well. */
public final class RecordPage {
  private static final String HEAD =
      """
      <!DOCTYPE html>
      <html lang="en"><head><meta charset="utf-8">
      <meta name="viewport" content="width=device-width, initial-scale=1">
      <title>Calibration record</title>
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

  private final StringBuilder html = new StringBuilder(HEAD);
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
   * The page; needs nothing from elsewhere. Its pictures are in {@code words}, the rest in English.
   */
  public static String of(CalibrationRecord record, Words words) {
    return new RecordPage(record, words).page();
  }

  private String page() {
    html.append("<h1>Calibration record</h1>\n<p class=\"what\">")
        .append(CalibrationRecord.WHAT_IT_IS)
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

  private void summary() {
    begin("Calibration");
    row("id", calibration.id());
    row("made", second(calibration.made()));
    row(
        "valid",
        calibration
            .validFor()
            .map(d -> "until " + second(calibration.made().plus(d)))
            .orElse("no period was set"));
    calibration
        .boundTo()
        .ifPresent(
            rig ->
                row(
                    "rig",
                    rig.deviceId()
                        + ", gain "
                        + rig.gain()
                        + ", "
                        + fixed(rig.nominalRate().hertz(), 1)
                        + " samples per second, polarity "
                        + rig.polarity()
                        + ". Not for any other rig or setting."));
    row(
        "range",
        newtons(calibration.range().from().newtons())
            + " to "
            + newtons(calibration.range().to().newtons())
            + ". Beyond it forces are extrapolated and marked so.");
    row("curve", curve());
    row("basis", calibration.basis());
    record.sheet().ifPresent(this::place);
    record.remarks().forEach(remark -> row("note", remark));
    end();
  }

  private static String second(Instant instant) {
    return instant.truncatedTo(ChronoUnit.SECONDS).toString();
  }

  private void place(BenchSheet sheet) {
    row(
        "gravity",
        digits(sheet.conditions().gravity().metresPerSecondSquared())
            + " m/s², standard uncertainty "
            + digits(sheet.conditions().gravity().standardUncertainty())
            + ": "
            + sheet.conditions().gravity().basis());
    row(
        "air",
        digits(sheet.conditions().air().kilogramsPerCubicMetre())
            + " kg/m³, standard uncertainty "
            + digits(sheet.conditions().air().standardUncertainty())
            + ": "
            + sheet.conditions().air().basis());
  }

  private String curve() {
    double[] coefficients = calibration.curve().coefficients();
    StringBuilder text = new StringBuilder("counts above zero = ");
    for (int i = 0; i < coefficients.length; i++) {
      if (coefficients[i] != 0) {
        text.append(text.toString().endsWith("= ") ? "" : " + ")
            .append(digits(coefficients[i]))
            .append(i == 0 ? "" : "·F")
            .append(i > 1 ? "^" + i : "");
      }
    }
    return text + ", F in N";
  }

  private void evaluation(Evaluation evaluation) {
    begin("Figures of merit", "figure", ">value", "definition", "source");
    for (Figure figure : evaluation.figures()) {
      cells(
          figure.name(),
          ">" + significant(figure.value()) + " " + figure.unit(),
          figure.definition(),
          figure.source());
    }
    end();
    paragraph("In the terms of these standards, and not a classification under them.");
    figure(
        CalibrationCharts.residuals(calibration, evaluation, words),
        "Readings less curve; the dashed lines are the expanded uncertainty of a force, 95 %.");
  }

  private void budget() {
    List<CombinedUncertainty> columns = record.budget();
    String[] heads = new String[columns.size() + 3];
    heads[0] = "source";
    heads[1] = "distribution";
    heads[2] = ">d.f.";
    for (int i = 0; i < columns.size(); i++) {
      heads[i + 3] = ">" + gramForce(columns.get(i).newtons(), 1) + " gf";
    }
    begin("Uncertainty budget: standard uncertainties in gf, sensitivity included", heads);
    for (int part = 0; part < columns.get(0).parts().size() - 1; part++) {
      int at = part;
      Contribution first = columns.get(0).parts().get(part);
      sums(
          columns,
          words(first.source().word()),
          words(first.distribution().word()),
          freedom(first.degreesOfFreedom()),
          u -> gramForce(u.parts().get(at).standardUncertaintyNewtons(), 4));
    }
    sums(columns, "combined", "", "", u -> gramForce(u.standardNewtons(), 4));
    sums(columns, "effective degrees of freedom", "", "", u -> freedom(u.degreesOfFreedom()));
    sums(columns, "coverage factor, 95 %", "", "", u -> fixed(u.coverageFactor(), 2));
    sums(columns, "expanded, 95 %", "", "", u -> gramForce(u.expandedNewtons(), 4));
    end();
    figure(
        CalibrationCharts.budget(calibration, words),
        "The estimate of each cut's peak adds its own uncertainty.");
    begin("Where the terms come from", "source", "basis");
    calibration.terms().forEach(term -> cells(words(term.source().word()), term.basis()));
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
    begin("Masses", "name", ">conventional mass, g", ">standard uncertainty, mg", "basis");
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
        "Data", ">run", "direction", "load", ">force, N", ">deflection, counts", ">less curve, gf");
    for (Deflection point : evaluation.deflections()) {
      double counts = point.counts() - calibration.curve().deflectionCounts(point.newtons());
      cells(
          ">" + point.run(),
          point.direction().word(),
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
    begin("Check masses since", "when", ">known, gf", ">shown, gf", ">limit, gf", "within");
    for (Verification check : record.verifications()) {
      cells(
          check.at().toString(),
          ">" + gramForce(check.known().value().newtons(), 2),
          ">" + gramForce(check.shown().value().newtons(), 2),
          ">" + gramForce(check.limit().newtons(), 2),
          check.withinLimit() ? "yes" : "NO");
    }
    end();
    if (record.verifications().size() >= ControlCharts.FEWEST) {
      figure(
          ControlCharts.of(record.verifications()).picture(words),
          "Control chart: individual values and their exponentially weighted average.");
    }
  }

  private void method() {
    html.append("<h2>Method</h2>\n");
    paragraph(
        "Force of a mass: conventional mass, local gravity, buoyancy in air (OIML D 28). Curve: least"
            + " squares through zero on the rising readings, by Householder QR; its degree by"
            + " lack-of-fit and F-tests. Uncertainty: JCGM 100:2008 (GUM), combined by equation (10),"
            + " effective degrees of freedom by Welch and Satterthwaite (G.2b), expanded by Student's"
            + " t for 95 %. Gram-force is 9.80665 mN exactly.");
    paragraph(
        "Cautions: clamp the blade, guard the line, wear a cut-resistant glove and eye protection."
            + " Calibrate again when gain, rate or mounting change.");
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

  private static String words(String word) {
    return word.replace('_', ' ');
  }

  private static String newtons(double newtons) {
    return fixed(newtons, 4) + " N (" + gramForce(newtons, 1) + " gf)";
  }

  private static String gramForce(double newtons, int decimals) {
    return fixed(CalibrationCharts.gramForce(newtons), decimals);
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
