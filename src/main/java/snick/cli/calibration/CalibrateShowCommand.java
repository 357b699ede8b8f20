package snick.cli.calibration;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import snick.cli.option.DataDirectory;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.JsonLine;
import snick.cli.terminal.NewFile;
import snick.phrase.Words;
import snick.report.RecordPage;
import snick.report.sheet.CalibrationRecord;
import snick.store.StoreReader;

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
      CalibrationRecord record =
          CalibrationRecord.of(ChosenCalibration.of(store, id.orElse("")), store);
      html.ifPresent(file -> write(file, record));
      if (json) {
        JsonLine.print(out(), record.json());
      } else if (html.isEmpty()) {
        CalibrationText.print(out(), record);
      }
    }
    return ExitCode.OK;
  }

  private void write(Path file, CalibrationRecord record) {
    NewFile.write(file, RecordPage.of(record, Words.english()).getBytes(UTF_8));
    spec.commandLine().getErr().println("snick: " + file + " written");
  }

  private PrintWriter out() {
    return spec.commandLine().getOut();
  }
}
