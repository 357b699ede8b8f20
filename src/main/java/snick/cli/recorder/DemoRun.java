package snick.cli.recorder;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import snick.cli.option.DataDirectory;
import snick.cli.terminal.ProgramVersion;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.WallTime;
import snick.daemon.AnnouncedCut;
import snick.daemon.Pipeline;
import snick.daemon.Recorder;
import snick.daemon.Scale;
import snick.daemon.link.RigInUseException;
import snick.force.budget.Calibration;
import snick.force.fit.ForceRange;
import snick.journal.Blade;
import snick.journal.Session;
import snick.journal.Session.Equipment;
import snick.journal.Stage;
import snick.live.BenchState;
import snick.port.PortAddress;
import snick.quantity.Force;
import snick.store.Store;
import snick.store.StoreReader;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.KnifeScenario;

/** One run of the demo: the virtual rig, the recorder on it, and the story's stages. */
final class DemoRun implements AutoCloseable {
  /**
   * The virtual rig's sensitivity as its maker would state it: counts per gf, and its uncertainty.
   */
  private static final double COUNTS_PER_GRAM_FORCE = 437.25;

  private static final double UNCERTAINTY_COUNTS_PER_GRAM_FORCE = 0.4;
  private static final double RANGE_NEWTONS = 10;
  private static final String BLADE = "invented kitchen knife";
  private static final long PATIENCE_SECONDS = 20;

  private final BlockingQueue<AnnouncedCut> announced = new LinkedBlockingQueue<>();
  private final BlockingQueue<TrueCut> truths = new LinkedBlockingQueue<>();
  private final ServedRig rig;
  private final Recorder recorder;
  private final Path data;
  private final Store journal;
  private final PrintWriter out;
  private final double speed;
  private final List<DemoStage> stages = new ArrayList<>();
  private String session = "";

  /** Starts rig and recorder; {@code link} is where the rig's pseudo-terminal appears. */
  DemoRun(Path link, Path data, double speed, VirtualRig virtual, PrintWriter out)
      throws IOException, RigInUseException {
    this.data = data;
    this.speed = speed;
    this.out = out;
    this.rig =
        virtual.serve(
            link, Pacer.of(System::nanoTime, speed), VirtualRig.WhenFull.WAIT, truths::add);
    try {
      this.recorder = record(rig.port(), data, announced);
    } catch (IOException | RigInUseException | RuntimeException e) {
      rig.close();
      throw e;
    }
    try {
      this.journal = Store.open(data, Clock.systemUTC());
    } catch (RuntimeException e) {
      recorder.close();
      rig.close();
      throw e;
    }
  }

  private static Recorder record(String port, Path data, BlockingQueue<AnnouncedCut> announced)
      throws IOException, RigInUseException {
    Calibration calibration =
        Calibration.straightLine(
            Optional.empty(),
            Instant.EPOCH,
            new Calibration.Line(
                COUNTS_PER_GRAM_FORCE / Force.NEWTONS_PER_GRAM_FORCE,
                UNCERTAINTY_COUNTS_PER_GRAM_FORCE / Force.NEWTONS_PER_GRAM_FORCE,
                0,
                0),
            ForceRange.upToNewtons(RANGE_NEWTONS));
    return Recorder.start(
        new Recorder.Settings(
            List.of(PortAddress.parse(port)),
            115_200,
            Pipeline.Settings.defaults(),
            data,
            DataDirectory.runtime(),
            OptionalInt.of(0),
            ProgramVersion.text()),
        recording -> Scale.by(calibration),
        new Recorder.Audience(announced::add, word -> {}),
        Clock.systemUTC());
  }

  /** Plays every stage and sums up. */
  void play() throws InterruptedException {
    out.println("A virtual rig on " + rig.port() + ". Knife and figures are invented.");
    recorder.pageAddress().ifPresent(page -> out.println("Watch it live: " + page));
    out.println("(With a real one: guard the line, clamp the blade, glove and eye protection on.)");
    awaitRecording();
    openSession();
    for (KnifeScenario.Stage stage : KnifeScenario.stages()) {
      play(stage);
    }
    play(KnifeScenario.onceMore());
    out.println();
    DemoStage.summary(stages).print(out);
    out.println();
    out.println("± is the expanded uncertainty, k = 2; true is what the model really did.");
    out.println();
    notes().verdicts();
    out.flush();
    journal.journal().close(session, Clock.systemUTC().instant());
  }

  private void awaitRecording() throws InterruptedException {
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_SECONDS);
    BenchState state = recorder.state();
    while (!state.recording()) {
      if (System.nanoTime() > end) {
        throw Refusal.unavailable("the virtual rig does not answer: " + state.faults());
      }
      TimeUnit.MILLISECONDS.sleep(20);
      state = recorder.state();
    }
  }

  private void openSession() {
    Instant now = Clock.systemUTC().instant();
    addBlade();
    session = "demo " + WallTime.of(now) + "." + now.toEpochMilli() % 1000;
    journal
        .journal()
        .open(
            new Session(
                session,
                BLADE,
                new Equipment(
                    Optional.empty(),
                    recorder.state().rigs().get(0).hello().map(h -> h.deviceIdText()),
                    Optional.empty()),
                OptionalDouble.empty(),
                Optional.empty(),
                now,
                Optional.empty()));
  }

  private void addBlade() {
    try (StoreReader reader = StoreReader.open(data)) {
      if (reader.journal().blade(BLADE).isEmpty()) {
        journal.journal().add(Blade.labelled(BLADE));
      }
    }
  }

  private void play(KnifeScenario.Stage stage) throws InterruptedException {
    out.println();
    out.println("Stage: " + stage.name() + (stage.burr() ? " (with a burr)" : ""));
    out.flush();
    Stage begun = journal.journal().begin(session, stage.name());
    notes().step(begun, Clock.systemUTC().instant());
    DemoStage result = new DemoStage(stage.name());
    for (Action action : stage.script().actions()) {
      CompletableFuture<Void> played = rig.perform(action);
      if (action instanceof Action.Cut cut) {
        recorder.nextSpot().set(cut.placeMillimetres());
        result.add(next(truths), next(announced));
        print(result);
      }
      played.join();
    }
    notes().looks(begun, Clock.systemUTC().instant());
    stages.add(result);
  }

  private DemoNotes notes() {
    return new DemoNotes(journal.journal(), data, session, out);
  }

  private void print(DemoStage stage) {
    out.println(stage.lastLine());
    out.flush();
  }

  private <T> T next(BlockingQueue<T> queue) throws InterruptedException {
    long seconds = Math.max(PATIENCE_SECONDS, (long) (PATIENCE_SECONDS / speed));
    T next = queue.poll(seconds, TimeUnit.SECONDS);
    if (next == null) {
      throw Refusal.unavailable(
          String.format(
              Locale.ROOT,
              "nothing came for %d s; the recorder says: %s",
              seconds,
              recorder.state().faults()));
    }
    return next;
  }

  @Override
  public void close() {
    try (rig;
        journal;
        recorder) {
      out.flush();
    }
  }
}
