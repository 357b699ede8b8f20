package snick.cli.verification;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import snick.cli.report.PictureFile;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Table;
import snick.cli.terminal.WallTime;
import snick.force.check.EwmaChart;
import snick.phrase.Words;
import snick.report.plot.ControlCharts;
import snick.store.record.Verification;

/** The control chart of check masses in a terminal, newest last. */
final class ControlChartText {
  private static final int SHOWN = 20;
  private static final int USUAL_FOR_LIMITS = 20;
  private static final int COLUMNS = 41;

  private ControlChartText() {}

  static void print(PrintWriter out, List<Verification> checks) {
    out.println();
    if (checks.size() < ControlCharts.FEWEST) {
      out.println(
          "%s check%s of this calibration so far; a control chart begins with %s."
              .formatted(checks.size(), checks.size() == 1 ? "" : "s", ControlCharts.FEWEST));
      return;
    }
    ControlCharts charts = ControlCharts.of(checks);
    table(checks, charts).print(out);
    out.println(
        String.format(
            Locale.ROOT,
            "Individuals: mean %+.3f %%, control limits %+.3f %% to %+.3f %%.",
            charts.individuals().centre(),
            charts.individuals().lower(),
            charts.individuals().upper()));
    if (checks.size() < USUAL_FOR_LIMITS) {
      out.println("Limits from fewer than 20 checks are provisional (common practice, no source).");
    }
  }

  private static Table table(List<Verification> checks, ControlCharts charts) {
    Table table = new Table("WHEN", ">ERROR %", ">AVERAGE %", "LOWER . MEAN | UPPER", "SIGNALS");
    for (int i = Math.max(0, checks.size() - SHOWN); i < checks.size(); i++) {
      table.row(
          WallTime.minute(checks.get(i).at()),
          signed(charts.errorsPercent().get(i)),
          signed(charts.averages().get(i).average()),
          strip(charts.errorsPercent().get(i), charts),
          signals(checks.get(i), charts, i));
    }
    return table;
  }

  private static String signed(double percent) {
    return String.format(Locale.ROOT, "%+.3f", percent);
  }

  /** The value as a star between its control limits, a bar at their middle. */
  private static String strip(double percent, ControlCharts charts) {
    double lower = charts.individuals().lower();
    double width = Math.max(charts.individuals().upper() - lower, Double.MIN_NORMAL);
    int last = COLUMNS - 1;
    char[] line = " ".repeat(COLUMNS).toCharArray();
    line[last / 8] = '.';
    line[last / 2] = '|';
    line[last - last / 8] = '.';
    double place = last / 8.0 + (percent - lower) / width * (last - 2 * (last / 8));
    line[(int) Math.round(Math.max(0, Math.min(last, place)))] = '*';
    return new String(line).stripTrailing();
  }

  private static String signals(Verification check, ControlCharts charts, int i) {
    StringBuilder text = new StringBuilder();
    if (!check.withinLimit()) {
      text.append("OUT OF LIMIT ");
    }
    if (!charts.individuals().holds(charts.errorsPercent().get(i))) {
      text.append("beyond control limits ");
    }
    EwmaChart.Point average = charts.averages().get(i);
    if (!average.within()) {
      text.append("average beyond its limits");
    }
    return text.toString().strip();
  }

  /** Writes the chart as a picture. */
  static void write(List<Verification> checks, Path file) {
    if (checks.size() < ControlCharts.FEWEST) {
      throw Refusal.badInput(
          checks.size()
              + " checks of this calibration: a control chart needs at least "
              + ControlCharts.FEWEST);
    }
    PictureFile.write(file, () -> ControlCharts.of(checks).picture(Words.english()));
  }
}
