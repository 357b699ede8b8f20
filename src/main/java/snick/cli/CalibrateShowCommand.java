package snick.cli;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import snick.report.CalibrationRecord;
import snick.report.RecordPage;
import snick.store.StoreReader;
import snick.store.StoredCalibration;

/** Shows one stored calibration. */
@Command(
    name = "show",
    mixinStandardHelpOptions = true,
    description = {
      "Show a stored calibration: curve, figures of merit, budget; or write its record for people"
          + " as one self-contained HTML file. In-house record, not an accredited certificate."
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  snick calibrate show                          the newest one",
      "  snick calibrate show cal-0123 --html record.html",
      "  snick calibrate show cal-0123 --json"
    })
final class CalibrateShowCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private DataDirectory data;

  @Parameters(
      paramLabel = "ID",
      arity = "0..1",
      description =
          "Id or the beginning of it, as 'snick calibrate list' shows it (default: the"
              + " newest).")
  private Optional<String> id;

  @Option(names = "--html", paramLabel = "FILE", description = "Write the record to this new file.")
  private Optional<Path> html;

  @Option(names = "--json", description = "As one JSON object, readings included.")
  private boolean json;

  @Override
  public Integer call() {
    try (StoreReader store = OpenedStore.toRead(data)) {
      CalibrationRecord record = CalibrationRecord.of(choose(store, id.orElse("")), store);
      html.ifPresent(file -> write(file, record));
      if (json) {
        JsonLine.print(out(), record.json());
      } else if (html.isEmpty()) {
        CalibrationText.print(out(), record);
      }
    }
    return ExitCode.OK;
  }

  /** The newest stored calibration whose id begins with {@code beginning}. */
  static StoredCalibration choose(StoreReader store, String beginning) {
    List<StoredCalibration> fitting =
        store.calibrations().stream()
            .filter(c -> c.calibration().id().startsWith(beginning))
            .toList();
    if (fitting.isEmpty()) {
      throw Refusal.badInput(
          beginning.isEmpty()
              ? "no calibrations yet; make one: snick calibrate PORT, or try --virtual"
              : "no calibration " + beginning + "; see which there are: snick calibrate list");
    }
    if (fitting.size() > 1 && !beginning.isEmpty()) {
      throw Refusal.badInput(beginning + " begins " + fitting.size() + " ids; give more of it");
    }
    return fitting.get(fitting.size() - 1);
  }

  private void write(Path file, CalibrationRecord record) {
    NewFile.write(file, RecordPage.of(record).getBytes(UTF_8));
    spec.commandLine().getErr().println("snick: " + file + " written");
  }

  private PrintWriter out() {
    return spec.commandLine().getOut();
  }
}
