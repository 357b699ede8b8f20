package snick.cli.calibration;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.nio.file.Path;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.ReadingCommand;
import snick.cli.terminal.JsonLine;
import snick.cli.terminal.NewFile;
import snick.phrase.Words;
import snick.report.RecordPage;
import snick.report.sheet.CalibrationRecord;
import snick.store.StoreReader;

/** Shows one stored calibration. */
@Command(
    name = "show",
    description = {
      "Show a stored calibration: curve, figures of merit, budget; or write its record for people"
          + " as one self-contained HTML file. In-house record, not an accredited certificate."
    },
    footer = {
      "  snick calibrate show                          the newest one",
      "  snick calibrate show cal-0123 --html record.html",
      "  snick calibrate show cal-0123 --json"
    })
final class CalibrateShowCommand extends ReadingCommand {

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
  protected void read(StoreReader store) {
    CalibrationRecord record =
        CalibrationRecord.of(ChosenCalibration.of(store, id.orElse("")), store);
    html.ifPresent(file -> write(file, record));
    if (json) {
      JsonLine.print(out(), record.json());
    } else if (html.isEmpty()) {
      CalibrationText.print(out(), record);
    }
  }

  private void write(Path file, CalibrationRecord record) {
    NewFile.write(file, RecordPage.of(record, Words.english()).getBytes(UTF_8));
    err().println("snick: " + file + " written");
  }
}
