package snick.cli.calibration;

import java.io.PrintWriter;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import snick.cli.terminal.Numbers;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Table;
import snick.cli.terminal.WallTime;
import snick.force.budget.Calibration;
import snick.force.budget.CombinedUncertainty;
import snick.force.budget.Contribution;
import snick.force.budget.Evaluation;
import snick.force.budget.Figure;
import snick.phrase.Words;
import snick.quantity.Force;
import snick.report.sheet.CalibrationRecord;

/** A calibration record in a terminal. */
public final class CalibrationText {
  /** With so many degrees of freedom Student's t is the normal quantile to three decimals. */
  private static final int MANY = 9999;

  private CalibrationText() {}

  static void print(PrintWriter out, CalibrationRecord record) {
    Calibration calibration = record.calibration();
    out.println(
        "Calibration "
            + calibration.id()
            + (dated(calibration)
                ? ", made " + WallTime.of(calibration.made())
                : ", typed in, without a date"));
    line(out, "rig", rig(calibration));
    line(out, "valid", validity(calibration));
    line(
        out,
        "range",
        grams(calibration.range().from()) + " to " + grams(calibration.range().to()) + " gf");
    line(out, "basis", calibration.basis());
    line(out, "curve", curve(calibration));
    record
        .sheet()
        .ifPresent(
            s ->
                line(
                    out,
                    "gravity",
                    FitJson.digits(s.conditions().gravity().metresPerSecondSquared())
                        + " m/s², "
                        + s.conditions().gravity().basis()));
    record.evaluation().ifPresent(e -> figures(out, e));
    budget(out, record);
    Words words = Words.english();
    record.remarks().forEach(remark -> line(out, "note", words.say(remark)));
    out.println(words.say(CalibrationRecord.WHAT_IT_IS));
  }

  /** One that was typed in beside a recording has no date: it is made at the epoch. */
  static boolean dated(Calibration calibration) {
    return calibration.made().isAfter(Instant.EPOCH);
  }

  private static String rig(Calibration calibration) {
    return calibration
        .boundTo()
        .map(
            rig ->
                "%s, gain %s, %s Hz, polarity %s"
                    .formatted(
                        rig.deviceId(),
                        rig.gain(),
                        Numbers.fixed(rig.nominalRate().hertz(), 1),
                        rig.polarity() > 0 ? "+1" : "-1"))
        .orElse("any");
  }

  private static String validity(Calibration calibration) {
    return calibration
        .validFor()
        .map(period -> "until " + WallTime.of(calibration.made().plus(period)))
        .orElse("no period was set");
  }

  private static String curve(Calibration calibration) {
    StringBuilder text = new StringBuilder("counts =");
    double[] coefficients = calibration.curve().coefficients();
    for (int i = 0; i < coefficients.length; i++) {
      if (coefficients[i] != 0) {
        String sign = text.length() > "counts =".length() ? " + " : " ";
        String power = i == 0 ? "" : i == 1 ? "·F" : "·F^" + i;
        text.append(sign).append(FitJson.digits(coefficients[i])).append(power);
      }
    }
    return text + ", F in N";
  }

  private static void figures(PrintWriter out, Evaluation evaluation) {
    out.println();
    Table table = new Table("FIGURE OF MERIT", ">VALUE", "", "SOURCE");
    for (Figure figure : evaluation.figures()) {
      table.row(
          Words.english().say(figure.name()),
          String.format(Locale.ROOT, "%.3g", figure.value()),
          figure.unit(),
          figure.source());
    }
    table.print(out);
    out.println("In the terms of standards, not a classification under them.");
  }

  /** The budget over the range: one column a force. */
  static void budget(PrintWriter out, CalibrationRecord record) {
    out.println();
    out.println("Standard uncertainties in gf at forces over the range, without the peak's own:");
    budget(out, record.budget());
  }

  private static void budget(PrintWriter out, List<CombinedUncertainty> columns) {
    String[] heads = new String[columns.size() + 2];
    heads[0] = "SOURCE";
    heads[1] = "DISTRIBUTION";
    for (int i = 0; i < columns.size(); i++) {
      heads[i + 2] = ">" + grams(Force.ofNewtons(columns.get(i).newtons())) + " gf";
    }
    Table table = new Table(heads);
    for (int row = 0; row < columns.get(0).parts().size() - 1; row++) {
      Contribution first = columns.get(0).parts().get(row);
      Object[] cells = new Object[heads.length];
      cells[0] = first.source().plain();
      cells[1] = first.distribution().plain();
      for (int i = 0; i < columns.size(); i++) {
        cells[i + 2] = small(columns.get(i).parts().get(row).standardUncertaintyNewtons());
      }
      table.row(cells);
    }
    sum(table, columns, "combined", c -> small(c.standardNewtons()));
    sum(table, columns, "effective degrees of freedom", c -> freedom(c.degreesOfFreedom()));
    sum(table, columns, "coverage factor for 95 %", c -> Numbers.fixed(c.coverageFactor(), 2));
    sum(table, columns, "expanded, 95 %", c -> small(c.expandedNewtons()));
    table.print(out);
  }

  private static void sum(
      Table table,
      List<CombinedUncertainty> columns,
      String name,
      Function<CombinedUncertainty, String> value) {
    Object[] cells = new Object[columns.size() + 2];
    cells[0] = name;
    cells[1] = "";
    for (int i = 0; i < columns.size(); i++) {
      cells[i + 2] = value.apply(columns.get(i));
    }
    table.row(cells);
  }

  /** Degrees of freedom as a whole number; where they are many, that they are. */
  public static String freedom(double degreesOfFreedom) {
    if (Double.isInfinite(degreesOfFreedom)) {
      return "infinite";
    }
    return degreesOfFreedom > MANY ? "> " + MANY : Numbers.fixed(degreesOfFreedom, 0);
  }

  /** A small force in newtons, shown in gf with four decimals, without its unit. */
  public static String small(double newtons) {
    return Numbers.fixed(newtons / Force.NEWTONS_PER_GRAM_FORCE, 4);
  }

  private static String grams(Force force) {
    return Numbers.gramForce(force);
  }

  private static void line(PrintWriter out, String name, String value) {
    out.println(String.format(Locale.ROOT, "  %-8s %s", name, PlainText.inert(value)));
  }
}
