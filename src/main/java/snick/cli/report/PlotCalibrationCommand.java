package snick.cli.report;

import java.util.List;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import snick.cli.terminal.Refusal;
import snick.force.budget.Evaluation;
import snick.phrase.Words;
import snick.report.plot.CalibrationPlot;
import snick.report.plot.Picture;
import snick.report.sheet.CalibrationRecord;
import snick.store.StoreReader;
import snick.store.record.StoredCalibration;

/** Draws a calibration. */
@Command(
    name = "calibration",
    description =
        "Draw a calibration: curve, and what lies beside it, with the expanded uncertainty.",
    footer = {"  snick plot calibration cal-0123 -o curve.svg"})
final class PlotCalibrationCommand extends Drawing {
  @Parameters(paramLabel = "ID", description = "Id of the calibration, or how it begins.")
  private String id;

  @Override
  Picture picture(StoreReader store) {
    List<StoredCalibration> found =
        store.calibrations().stream().filter(c -> c.calibration().id().startsWith(id)).toList();
    if (found.size() != 1) {
      throw Refusal.badInput(
          found.size() + " calibrations begin with '" + id + "'; there are: " + known(store));
    }
    CalibrationRecord record = CalibrationRecord.of(found.get(0), store);
    return CalibrationPlot.of(
        record.calibration(),
        record.evaluation().map(Evaluation::deflections).orElse(List.of()),
        Words.english());
  }

  private static String known(StoreReader store) {
    String ids =
        store.calibrations().stream()
            .map(c -> c.calibration().id())
            .collect(Collectors.joining(", "));
    return ids.isEmpty() ? "none" : ids;
  }
}
