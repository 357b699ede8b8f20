package snick.cli.recorder;

import java.io.IOException;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.Callable;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.cuts.CalibrationChoice;
import snick.cli.cuts.EventLine;
import snick.cli.cuts.StoredCalibrations;
import snick.cli.option.DataCommand;
import snick.cli.option.DataDirectory;
import snick.cli.option.Setting;
import snick.cli.option.Settings;
import snick.cli.option.StreamChoice;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.ProgramVersion;
import snick.cli.terminal.Refusal;
import snick.cut.Outcome;
import snick.daemon.AnnouncedCut;
import snick.daemon.Recorder;
import snick.daemon.link.RigInUseException;
import snick.daemon.link.WhenAbsent;
import snick.phrase.Words;
import snick.port.PortAddress;
import snick.store.NetworkDisk;
import snick.store.database.StoreException;
import snick.view.bench.Preferences;

/** Records until stopped. */
@Command(
    name = "run",
    description = "Record from one or more rigs until stopped (Ctrl-C).",
    footer = {
      "  snick run /dev/ttyACM0 --counts-per-gf 437.25",
      "  snick run /dev/serial/by-id/usb-NAME",
      "  snick run COM3                                  on Windows",
      "  snick run a1b2 tcp://127.0.0.1:4000     two rigs, one by a part of its name",
      "  snick run --wait /dev/serial/by-id/usb-NAME       plug it in whenever you like",
      "",
      "Guard the line, clamp the blade, wear a cut-resistant glove and eye protection.",
    })
public final class RunCommand extends DataCommand implements Callable<Integer> {
  private static final long START_WAIT_SECONDS = 10;
  private static final int MOST_PORT = 65_535;

  @Parameters(
      paramLabel = "PORT",
      arity = "1..*",
      description = "Serial device, part of a port's name, or tcp://HOST:PORT.")
  private List<String> ports;

  @Mixin private CalibrationChoice calibration;
  @Mixin private StreamChoice streamChoice;

  @Option(
      names = "--baud",
      paramLabel = "N",
      defaultValue = "115200",
      description = "Bits per second of serial ports (default: ${DEFAULT-VALUE}).")
  private int bitsPerSecond;

  @Option(
      names = "--http",
      paramLabel = "PORT",
      defaultValue = "8737",
      description =
          "Loopback port of the page, /metrics and /health, 0 for any free one"
              + " (default: ${DEFAULT-VALUE}).")
  private int httpPort;

  @Mixin private PageChoice page;

  @Option(
      names = "--wait",
      description =
          "Wait for rigs that are not there yet and record each as soon as it is, instead of"
              + " refusing them (exit status 5). The service does.")
  private boolean wait;

  @Option(
      names = "--cuts",
      paramLabel = "N",
      description = "Stop after so many cuts (default: when told to).")
  private Optional<Integer> enough = Optional.empty();

  @Option(names = "--no-http", description = "Serve no page.")
  private boolean noHttp;

  private final CutsLeft cutsLeft = new CutsLeft();

  @Option(names = "--json", description = "One JSON object a line for each stored event.")
  private boolean json;

  @Override
  public Integer call() throws InterruptedException {
    calibration.given(0);
    requirePort();
    enough.ifPresent(cutsLeft::set);
    CompletableFuture<Runnable> stop = new CompletableFuture<>();
    Runtime.getRuntime().addShutdownHook(new Thread(() -> obey(stop), "stop"));
    try {
      return record(stop);
    } finally {
      stop.complete(() -> {});
    }
  }

  /** A signal that comes while the store is still being opened is obeyed when that is done. */
  private static void obey(CompletableFuture<Runnable> stop) {
    stop.completeOnTimeout(() -> {}, START_WAIT_SECONDS, TimeUnit.SECONDS).join().run();
  }

  /** Records to the end; {@code stop} gets what a signal is to do, one that came before too. */
  private int record(CompletableFuture<Runnable> stop) throws InterruptedException {
    CountDownLatch stopped = new CountDownLatch(1);
    Recorder recorder = start();
    try (recorder;
        Supervised supervised = Supervised.byWhomStartedThis(recorder, this::tell)) {
      stop.complete(() -> stopOrderly(recorder, supervised, stopped));
      greet(recorder);
      cutsLeft.whenNone(recorder::endSoon);
      recorder.awaitEnd();
    } finally {
      stopped.countDown();
    }
    return ending(recorder);
  }

  private void requirePort() {
    if (!(httpPort >= 0 && httpPort <= MOST_PORT)) {
      throw Refusal.usage("--http " + httpPort + " is outside 0 to " + MOST_PORT);
    }
  }

  private static int ending(Recorder recorder) {
    if (recorder.failed()) {
      return ExitCode.FAILED;
    }
    if (recorder.refusals().isEmpty()) {
      return ExitCode.OK;
    }
    return recorder.refusedFiles() ? ExitCode.BAD_INPUT : ExitCode.UNAVAILABLE;
  }

  /** On SIGINT and SIGTERM: the event in flight is stored before the process ends. */
  private void stopOrderly(Recorder recorder, Supervised supervised, CountDownLatch stopped) {
    if (stopped.getCount() > 0) {
      supervised.close();
      recorder.close();
      tell(
          recorder.failed()
              ? "stopped; not all could be stored in " + data.path() + ", see above"
              : "stopped; everything announced is stored in " + data.path());
      out().flush();
    }
  }

  private Recorder start() {
    try {
      return Recorder.start(
          settings(),
          new StoredCalibrations(data, calibration),
          new Recorder.Audience(this::announce, this::tell),
          Clock.systemUTC());
    } catch (RigInUseException e) {
      throw Refusal.unavailable(e.getMessage());
    } catch (StoreException e) {
      throw Refusal.unavailable(e.getMessage());
    } catch (IOException e) {
      throw Refusal.unavailable(
          "the page's port %s or a lock cannot be had: %s; try --http 0", httpPort, e.getMessage());
    }
  }

  private Recorder.Settings settings() {
    return new Recorder.Settings(
        new Recorder.Sources(
            ports.stream().map(RunCommand::address).toList(),
            bitsPerSecond,
            wait ? WhenAbsent.AWAITED : WhenAbsent.REFUSED),
        streamChoice.settings(),
        data.path(),
        DataDirectory.runtime(),
        new Recorder.PageSettings(
            noHttp ? OptionalInt.empty() : OptionalInt.of(httpPort),
            page.reach(),
            preferences(data.settings())),
        ProgramVersion.text());
  }

  private static Preferences preferences(Settings set) {
    return new Preferences(
        set.marginGf(),
        set.get(Setting.OPERATOR),
        set.get(Setting.LICENCE),
        set.number(Setting.LATITUDE),
        set.number(Setting.HEIGHT),
        Words.english());
  }

  private static PortAddress address(String text) {
    return Refusal.ifNotAccepted(() -> PortAddress.parse(text), why -> Refusal.usage(why));
  }

  private void greet(Recorder recorder) {
    recorder.pageAddress().ifPresent(address -> tell("the page is " + address));
    tell("the store is " + data.path() + "; stop with Ctrl-C");
    NetworkDisk.warning(data.path()).ifPresent(this::tell);
  }

  private synchronized void announce(AnnouncedCut cut) {
    tell(
        json,
        () -> StoredEventJson.of(cut),
        () -> println(EventLine.of(cut.cut(), cut.force(), "#" + cut.id())));
    out().flush();
    if (cut.cut().outcome() == Outcome.SEVERED) {
      cutsLeft.oneLess();
    }
  }

  private synchronized void tell(String word) {
    err().println("snick: " + PlainText.inert(data.in(word)));
    err().flush();
  }
}
