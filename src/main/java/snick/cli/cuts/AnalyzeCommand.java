package snick.cli.cuts;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.IntSupplier;
import java.util.function.Supplier;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.StreamChoice;
import snick.cli.terminal.FileReason;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Progress;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Terminal;
import snick.cli.terminal.TypedCommand;
import snick.cut.Cut;
import snick.daemon.Pipeline;
import snick.daemon.Scale;
import snick.force.budget.Calibration;
import snick.frame.text.Column;
import snick.frame.text.Columns;
import snick.phrase.Phrase;
import snick.phrase.Words;
import snick.port.PortAddress;
import snick.port.PortException;
import snick.port.Ports;
import snick.port.RecordedSource;

/** Finds cuts in a capture or a text log, offline, with the decoder and detector of the daemon. */
@Command(
    name = "analyze",
    description = "Find the cuts in a capture or a text log, of any length, in constant memory.",
    footer = {
      "  snick analyze demo-data/kitchen-knife.capture --counts-per-gf 437.25",
      "  snick analyze log.txt --rate 80 --json",
      "  cat log.txt | snick analyze - --counts-per-gf 437.25",
    })
public final class AnalyzeCommand extends TypedCommand implements Runnable {

  /** What is shown first comes soon; after that more is read before it is shown. */
  private static final int FIRST_BYTES = 1 << 16;

  private static final int MOST_BYTES = 1 << 20;

  @Parameters(paramLabel = "FILE", description = "A capture, a text log, or - for standard input.")
  private String file;

  @Mixin private CalibrationChoice calibration;
  @Mixin private StreamChoice streamChoice;

  @Option(names = "--json", description = "One JSON object a line for each event.")
  private boolean json;

  private final Map<Integer, Optional<Calibration>> calibrations = new HashMap<>();
  private final Map<Integer, Optional<Calibration.Line>> lines = new HashMap<>();
  private IntSupplier decimals = () -> 0;
  private Supplier<Optional<Column>> reading = Optional::empty;
  private long found;
  private long shown;
  private boolean unread;

  @Override
  public void run() {
    calibration.requirePositive();
    Pipeline.Settings settings = streamChoice.settings();
    RecordedSource source = open();
    try (source;
        SecondProcessor second = new SecondProcessor("estimates")) {
      Pipeline pipeline = new Pipeline(settings, this::print, second);
      decimals = () -> pipeline.stream().decimals();
      reading = () -> pipeline.decoder().columns().map(Columns::reading);
      readAll(source, pipeline);
      summary(pipeline, source);
    } catch (IOException e) {
      throw Refusal.failed(file + " could not be read to its end: " + e.getMessage(), e);
    }
  }

  private RecordedSource open() {
    try {
      PortAddress address = PortAddress.parse(file);
      if (address.live()) {
        throw Refusal.badInput(whyNoFile(file));
      }
      return (RecordedSource) new Ports(115_200).open(address);
    } catch (PortException | IllegalArgumentException e) {
      throw Refusal.badInput(e.getMessage());
    } catch (IOException e) {
      throw Refusal.badInput(file + " cannot be read: " + FileReason.of(e));
    }
  }

  /** Why something that is no regular file cannot be analysed. */
  private static String whyNoFile(String name) {
    try {
      return Files.readAttributes(Path.of(name), BasicFileAttributes.class).isDirectory()
          ? name + " is a directory; name a recording in it"
          : ("%1$s is a device or a pipe; read a pipe with 'cat %1$s | snick analyze -', record"
                  + " from a rig with 'snick run %1$s'")
              .formatted(name);
    } catch (NoSuchFileException e) {
      return "no file " + name + "; to record from a rig: snick run PORT";
    } catch (IOException e) {
      return name + " cannot be read: " + FileReason.of(e);
    }
  }

  private void readAll(RecordedSource source, Pipeline pipeline) throws IOException {
    Progress progress = new Progress(err(), Terminal.watchesErrors(), size());
    byte[] buffer = new byte[FIRST_BYTES];
    int enough = FIRST_BYTES;
    int taken = 0;
    while (!source.ended() && !unread) {
      int count = readOrShow(source, buffer, pipeline);
      pipeline.accept(buffer, count);
      taken += count;
      if (taken >= enough || source.paused()) {
        show(pipeline);
        progress.at(source.bytesRead(), found);
        enough = Math.min(2 * enough, MOST_BYTES);
        taken = 0;
      }
    }
    pipeline.end();
    show(pipeline);
    progress.done();
  }

  /** If reading fails, what was found before is shown first. */
  private int readOrShow(RecordedSource source, byte[] buffer, Pipeline pipeline)
      throws IOException {
    try {
      return source.read(buffer);
    } catch (IOException e) {
      show(pipeline);
      throw e;
    }
  }

  /** Many events at once: handing on each by itself costs more than finding it. */
  private void show(Pipeline pipeline) {
    pipeline.handOn();
    if (found > shown) {
      shown = found;
      unread = out().checkError();
    }
  }

  private long size() {
    try {
      return file.equals("-") ? 0 : Files.size(Path.of(file));
    } catch (IOException e) {
      return 0;
    }
  }

  private void print(Cut cut) {
    found++;
    tell(
        json,
        () -> EventJson.of(cut, line()),
        () -> println(EventLine.of(cut, scale().estimate(cut), "cut " + cut.number())));
  }

  private Optional<Calibration.Line> line() {
    return lines.computeIfAbsent(
        decimals.getAsInt(),
        now -> calibration.line(now).or(() -> SketchScale.line(reading.get(), now)));
  }

  private Scale scale() {
    return known()
        .map(Scale::by)
        .orElseGet(() -> Scale.none(List.of(Phrase.of("scale.none_given"))));
  }

  private Optional<Calibration> typedIn() {
    return calibrations.computeIfAbsent(decimals.getAsInt(), calibration::given);
  }

  private Optional<Calibration> known() {
    return typedIn().or(() -> SketchScale.calibration(reading.get(), decimals.getAsInt()));
  }

  private void summary(Pipeline pipeline, RecordedSource source) {
    if (pipeline.stream().facts().samples() == 0) {
      throw Refusal.badInput(file + pipeline.decoder().whyNoReadings());
    }
    TextWords.of(pipeline).forEach(word -> err().println("snick: " + PlainText.inert(word)));
    if (!json) {
      StreamSummary.print(out(), pipeline, found);
    }
    if (source.torn()) {
      err().println("snick: " + file + " ends in a damaged record; everything before it was read");
    }
    if (typedIn().isEmpty() && known().isPresent()) {
      err().println("snick: " + Words.english().say(SketchScale.WARNING));
    } else if (!json && typedIn().isEmpty()) {
      println("Forces are in counts: no calibration. Give one with --counts-per-gf N.");
    }
  }
}
