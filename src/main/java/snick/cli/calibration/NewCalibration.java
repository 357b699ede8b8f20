package snick.cli.calibration;

import java.io.PrintWriter;
import java.util.Optional;
import snick.cli.option.DataDirectory;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.JsonLine;
import snick.cli.terminal.Refusal;
import snick.force.budget.Evaluation;
import snick.report.sheet.BenchSheet;
import snick.report.sheet.CalibrationRecord;
import snick.store.StoreReader;

/**
 * A calibration just worked out and saved.
 *
 * @param record what was saved
 * @param data directory of the store it was saved in
 */
record NewCalibration(CalibrationRecord record, DataDirectory data) {
  /**
   * Works {@code sheet} out and saves the result.
   *
   * @throws Refusal if it gives no calibration; nothing is saved
   */
  static NewCalibration save(BenchSheet sheet, DataDirectory data) {
    Evaluation evaluation = evaluate(sheet);
    String id = evaluation.calibration().id();
    Optional<String> document = Optional.of(sheet.text());
    OpenedStore.save(data, store -> store.add(evaluation.calibration(), document));
    try (StoreReader store = OpenedStore.toRead(data)) {
      return new NewCalibration(
          CalibrationRecord.of(store.calibration(id).orElseThrow(), store), data);
    }
  }

  private static Evaluation evaluate(BenchSheet sheet) {
    return Refusal.ifNotAccepted(
        () -> sheet.evaluate(),
        why ->
            Refusal.badInput("no calibration comes of these readings, nothing is saved: " + why));
  }

  /** Prints it. */
  void print(PrintWriter out, boolean json) {
    if (json) {
      JsonLine.print(out, record.json());
    } else {
      CalibrationText.print(out, record);
      String id = record.calibration().id();
      out.println();
      out.println(
          "Saved. Record for people: "
              + data.in("snick calibrate show " + id + " --html record.html"));
    }
  }
}
