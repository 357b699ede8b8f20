package snick.cli.bench;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import snick.cli.option.DataCommand;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.FileReason;
import snick.cli.terminal.JsonLine;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Table;
import snick.daemon.LiveFeed;
import snick.force.budget.Calibration;
import snick.force.check.CheckResult;
import snick.force.check.FlickCheck;
import snick.force.check.RigCheck;
import snick.frame.StreamDecoder;
import snick.frame.message.Tally;
import snick.frame.text.RefusedLine;
import snick.phrase.NotAccepted;
import snick.port.LinkLostException;
import snick.port.PortAddress;
import snick.quantity.Force;
import snick.report.RecentFalls;
import snick.store.KeptPlace;
import snick.store.StoreReader;
import snick.store.database.StoreException;
import snick.store.record.StoredCalibration;
import snick.virtualrig.ServedRig;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;

/** Says what is wrong with a rig. */
@Command(
    name = "doctor",
    description = {
      "Look at a rig at rest, without load, for a minute and say what is wrong: rate, noise, drift,"
          + " overrange, stuck or false readings, hum, clock, lost frames, permissions; how its"
          + " fixture rings, by its last cuts or by a flick; and whether it reads the same along the"
          + " filament, by the check of place kept last. Exit status 3 if something fails."
    },
    footer = {
      "  snick doctor /dev/ttyACM0",
      "  snick doctor /dev/ttyACM0 --flick       flick the fixture when asked to",
      "  snick doctor /dev/ttyACM0 --explain",
      "  snick doctor /dev/ttyACM0 --seconds 20 --json",
      "  snick doctor evening.capture",
      "  snick doctor --virtual"
    })
public final class DoctorCommand extends DataCommand implements Callable<Integer> {
  private static final double LONGEST_SECONDS = 3600;
  private static final long PATIENCE_SECONDS = 10;
  private static final int FLICKS = 5;

  /** With the two columns before them they fill 80 columns at most. */
  private static final int MEASURED_LETTERS = 26;

  private static final int EXPECTED_LETTERS = 29;

  /** Two seconds of rest, five flicks with a pause of two after each, and some to spare. */
  private static final double FLICK_SECONDS = 16;

  /** So far a quick virtual rig may have run ahead of what is read. */
  private static final double AHEAD_SECONDS = 20;

  @Mixin private BenchRig rig;

  @Option(
      names = "--seconds",
      paramLabel = "S",
      defaultValue = "60",
      description = "How long to look, s of the rig's time (default: ${DEFAULT-VALUE}).")
  private double seconds;

  @Option(
      names = "--flick",
      description =
          "Then flick the fixture five times, with nothing on it: resonance and damping. The"
              + " virtual rig is always flicked.")
  private boolean flick;

  @Option(names = "--json", description = "One JSON object a line for each finding.")
  private boolean json;

  @Option(
      names = "--explain",
      description = "What every check means, not only those that did not pass.")
  private boolean explain;

  private final RigCheck check = new RigCheck();
  private final RestWatch watch = new RestWatch(check);

  @Override
  public Integer call() {
    if (!(seconds >= 5 && seconds <= LONGEST_SECONDS)) {
      throw Refusal.usage("--seconds " + seconds + " is outside 5 to 3600");
    }
    rig.requireNamed();
    if (flick && rig.port().map(PortAddress::parse).filter(port -> !port.live()).isPresent()) {
      throw Refusal.usage("--flick needs a rig that is there; a recording cannot be flicked");
    }
    List<HealthLine> lines = new ArrayList<>();
    rig.port().ifPresent(port -> lines.addAll(PortHealth.of(port)));
    if (!failed(lines)) {
      look(lines);
    }
    lines.addAll(NativeHealth.lines());
    print(lines);
    return failed(lines) ? ExitCode.NOT_PASSED : ExitCode.OK;
  }

  private static boolean failed(List<HealthLine> lines) {
    return lines.stream().anyMatch(line -> line.grade() == CheckResult.Grade.FAIL);
  }

  private void look(List<HealthLine> lines) {
    Optional<ServedRig> virtual =
        rig.isVirtual() ? Optional.of(rig.serve(truth -> {})) : Optional.empty();
    try {
      look(virtual.map(ServedRig::port).orElseGet(() -> rig.port().orElseThrow()), virtual, lines);
    } finally {
      virtual.ifPresent(ServedRig::close);
    }
  }

  private void look(String address, Optional<ServedRig> virtual, List<HealthLine> lines) {
    rig.keptIn(data);
    try (LiveFeed feed = rig.open(address, watch)) {
      say(
          PortAddress.parse(address).live()
              ? "looking for " + Math.round(seconds) + " s; leave the rig alone, nothing on it"
              : "reading the first "
                  + Math.round(seconds)
                  + " s of the recording; what follows holds if the rig stood alone then, nothing"
                  + " on it");
      readUntil(feed, seconds);
      List<HealthLine> mechanics = mechanics(feed, virtual);
      judge(feed, address, lines);
      lines.addAll(mechanics);
      lines.add(PlaceHealth.of(place(feed)));
    } catch (LinkLostException e) {
      lines.add(
          HealthLine.fail(
              "link",
              e.getMessage(),
              "stays",
              "the device went away",
              "check cable, hub and supply"));
    } catch (IOException e) {
      throw Refusal.failed(address + " cannot be read: " + FileReason.of(e), e);
    }
  }

  /** Reads on until so much of the rig's time has passed since the beginning, s. */
  private void readUntil(LiveFeed feed, double untilSeconds) throws IOException {
    long patience = (long) (untilSeconds - watch.seconds()) + PATIENCE_SECONDS;
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(patience);
    boolean more = true;
    while (more && watch.seconds() < untilSeconds && System.nanoTime() < end) {
      more = feed.turn();
    }
  }

  private List<HealthLine> mechanics(LiveFeed feed, Optional<ServedRig> virtual)
      throws IOException {
    double hertz = watch.samplesPerSecond();
    if (!flick && virtual.isEmpty()) {
      return recent(feed)
          .map(falls -> MechanicsHealth.of(falls.response(), falls.samplesPerSecond()))
          .orElse(MechanicsHealth.UNKNOWN);
    }
    say("now flick the fixture five times, every two seconds; nothing on it");
    FlickCheck seen = new FlickCheck();
    watch.to(seen);
    Optional<CompletableFuture<Void>> flicking = virtual.map(rig -> rig.perform(flicks()));
    readUntil(feed, watch.seconds() + FLICK_SECONDS + (virtual.isPresent() ? AHEAD_SECONDS : 0));
    flicking.ifPresent(done -> done.getNow(null));
    return MechanicsHealth.ofFlicks(seen.ring(), hertz);
  }

  private static Script flicks() {
    Script flicks = Script.of(new Action.Rest(1));
    for (int i = 0; i < FLICKS; i++) {
      flicks =
          flicks.then(new Action.Rest(2)).then(new Action.Flick(Force.ofGramForce(60 + 10 * i)));
    }
    return flicks;
  }

  private Optional<RecentFalls> recent(LiveFeed feed) {
    return feed.setting(1)
        .flatMap(
            setting -> stored(store -> RecentFalls.of(store, Optional.of(setting.deviceId()))));
  }

  private void say(String words) {
    if (!json) {
      err().println("snick: " + words);
    }
  }

  private void judge(LiveFeed feed, String address, List<HealthLine> lines) {
    Tally tally = feed.tally();
    RigCheck.Circumstances known =
        new RigCheck.Circumstances(
            feed.nominalRate(),
            calibration(feed),
            rig.isVirtual() ? OptionalDouble.empty() : feed.clockErrorPpm(),
            tally.good(),
            tally.thrownAway().damaged());
    try {
      check.findings(known).forEach(finding -> lines.add(HealthLine.of(finding)));
    } catch (NotAccepted e) {
      lines.add(watch.overrange() > 0 ? atItsEnd() : silent(address, feed.decoder()));
    }
  }

  private HealthLine atItsEnd() {
    return HealthLine.fail(
        "overrange",
        watch.words(),
        "none at rest",
        "the converter stands at the end of its range: a wire is open or the cell is overloaded",
        "take the load off, check the four wires of the cell, then the gain");
  }

  private HealthLine silent(String address, StreamDecoder decoder) {
    return HealthLine.fail(
        "samples",
        watch.words() + ", " + decoder.tally().thrownAway().bytes() + " bytes not understood",
        "a steady stream",
        decoder
            .refused()
            .map(RefusedLine::words)
            .orElse("the rig is silent, or speaks a form that is not understood"),
        "check supply, --baud and sketch (firmware-protocol.md); 'snick capture "
            + address
            + "' keeps the raw bytes");
  }

  private Optional<KeptPlace> place(LiveFeed feed) {
    return feed.setting(1)
        .flatMap(setting -> stored(store -> KeptPlace.of(store, setting.deviceId())));
  }

  private Optional<Calibration> calibration(LiveFeed feed) {
    return feed.setting(1)
        .flatMap(setting -> stored(store -> store.currentCalibration(setting.deviceId())))
        .map(StoredCalibration::calibration);
  }

  /** What the store knows, if there is one and it can be read. */
  private <T> Optional<T> stored(Function<StoreReader, Optional<T>> question) {
    if (!Files.exists(data.path().resolve(OpenedStore.FILE))) {
      return Optional.empty();
    }
    try (StoreReader store = StoreReader.open(data.path())) {
      return question.apply(store);
    } catch (StoreException e) {
      err().println("snick: done without the store: " + PlainText.inert(e.getMessage()));
      return Optional.empty();
    }
  }

  private void print(List<HealthLine> lines) {
    PrintWriter out = out();
    if (json) {
      lines.forEach(line -> JsonLine.print(out, line.json()));
      return;
    }
    Table table =
        new Table("", "CHECK", "MEASURED", "EXPECTED")
            .broken(2, MEASURED_LETTERS)
            .broken(3, EXPECTED_LETTERS);
    lines.forEach(l -> table.row(l.word(), l.check(), l.measured(), l.expected()));
    table.print(out);
    for (HealthLine line : lines) {
      if (explain || line.grade() != CheckResult.Grade.PASS) {
        out.println();
        out.println(
            PlainText.inert(line.word() + " " + line.check() + ": " + line.meaning() + "."));
        if (!line.remedy().isEmpty()) {
          out.println(PlainText.inert("  Do: " + line.remedy() + "."));
        }
      }
    }
    out.println();
    out.println(
        "%s checks, %s failed, %s to look at, %s not known."
            .formatted(
                lines.size(),
                count(lines, CheckResult.Grade.FAIL),
                count(lines, CheckResult.Grade.WARN),
                count(lines, CheckResult.Grade.UNKNOWN)));
  }

  private static long count(List<HealthLine> lines, CheckResult.Grade grade) {
    return lines.stream().filter(line -> line.grade() == grade).count();
  }
}
