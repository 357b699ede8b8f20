package snick.daemon;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import snick.daemon.link.HostTime;
import snick.daemon.link.RigInUseException;
import snick.daemon.link.RigOpening;
import snick.daemon.link.WhenAbsent;
import snick.force.budget.Calibration;
import snick.force.reading.RigSetting;
import snick.frame.text.Columns;
import snick.frame.text.TextRule;
import snick.live.BenchState;
import snick.live.LiveTrace;
import snick.live.NextSpot;
import snick.live.RigTap;
import snick.phrase.Phrase;
import snick.phrase.Words;
import snick.port.PortAddress;
import snick.port.Ports;
import snick.quantity.SampleRate;
import snick.store.KeptColumns;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.record.Recording;
import snick.view.bench.Bench;
import snick.view.bench.Preferences;
import snick.view.bench.RigMetrics;
import snick.view.http.PageReach;

/**
 * The recorder: one reader thread a rig, one bounded queue, one keeper thread, one loopback server;
 * made in one place and closed in reverse order. Safe for any thread once started.
 */
public final class Recorder implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Recorder.class);
  private static final int QUEUE_LENGTH = 256;
  private static final long STOP_WAIT_SECONDS = 10;

  private final Rigs rigs;
  private final BlockingQueue<Work> queue = new ArrayBlockingQueue<>(QUEUE_LENGTH);
  private final Instant startedAt;
  private final FaultLog faults;
  private final Store store;
  private final Keeper keeper;
  private final Thread keeperThread;
  private final RigMetrics metrics;
  private final AtomicLong announced = new AtomicLong();
  private volatile boolean failed;
  private boolean closed;
  private final List<LiveTrace> traces = new ArrayList<>();
  private final List<RigTap> taps = new ArrayList<>();
  private final NextSpot nextSpot = new NextSpot();
  private final Clock clock;
  private final Consumer<String> word;
  private Optional<ServedPage> page = Optional.empty();

  /**
   * Where the bytes come from.
   *
   * @param rigs one address a rig
   * @param bitsPerSecond rate of serial ports
   * @param absent what becomes of rigs that are not there yet
   */
  public record Sources(List<PortAddress> rigs, int bitsPerSecond, WhenAbsent absent) {
    public Sources {
      rigs = List.copyOf(rigs);
    }
  }

  /**
   * How the page is served.
   *
   * @param httpPort its TCP port, 0 for any free one; empty for no page
   * @param reach who can reach it
   * @param preferences what the person has set for it
   */
  public record PageSettings(OptionalInt httpPort, PageReach reach, Preferences preferences) {}

  /**
   * What to record and how.
   *
   * @param sources where the bytes come from
   * @param pipeline decoder's and detector's settings
   * @param dataDirectory where the store lies
   * @param lockFolder where locks lie
   * @param page how the page is served
   * @param version version of this program
   */
  public record Settings(
      Sources sources,
      Pipeline.Settings pipeline,
      Path dataDirectory,
      Path lockFolder,
      PageSettings page,
      String version) {
    /** With a page for this machine alone; rigs that are not there are refused. */
    public Settings(
        List<PortAddress> rigs,
        int bitsPerSecond,
        Pipeline.Settings pipeline,
        Path dataDirectory,
        Path lockFolder,
        OptionalInt httpPort,
        String version) {
      this(
          new Sources(rigs, bitsPerSecond, WhenAbsent.REFUSED),
          pipeline,
          dataDirectory,
          lockFolder,
          new PageSettings(httpPort, PageReach.loopback(), Preferences.NONE),
          version);
    }

    private List<PortAddress> rigs() {
      return sources.rigs();
    }
  }

  /**
   * Who is told.
   *
   * @param cut takes each cut after its commit, on the keeper's thread
   * @param word takes one line for the person, on any thread
   */
  public record Audience(Consumer<AnnouncedCut> cut, Consumer<String> word) {}

  private Recorder(
      Settings settings, CalibrationShelf calibrations, Audience audience, Clock clock) {
    this.clock = clock;
    this.word = audience.word();
    startedAt = clock.instant();
    faults = new FaultLog(clock);
    store = Store.open(settings.dataDirectory(), clock);
    metrics = new RigMetrics(settings.rigs().size(), this::state, settings.version());
    RigResponses responses = new RigResponses(settings.rigs().size(), store, clock);
    Surroundings around = new Surroundings(queue, clock, HostTime.REAL, faults, audience.word());
    keeper =
        new Keeper(
            settings.rigs().size(),
            store,
            calibrations,
            responses,
            nextSpot,
            new Refuge(settings.dataDirectory(), clock),
            cut -> announce(cut, audience.cut()),
            around);
    keeperThread = new Thread(keeper, "keeper");
    keeperThread.setUncaughtExceptionHandler(this::broken);
    Ports ports = new Ports(settings.sources().bitsPerSecond());
    List<RigReader> readers = new ArrayList<>();
    for (int rig = 0; rig < settings.rigs().size(); rig++) {
      readers.add(reader(rig, settings, ports, responses, around));
    }
    rigs = new Rigs(readers, this::broken);
  }

  private RigReader reader(
      int rig, Settings settings, Ports ports, RigResponses responses, Surroundings around) {
    LiveTrace trace = new LiveTrace();
    traces.add(trace);
    RigTap tap = new RigTap(word);
    taps.add(tap);
    PortAddress address = settings.rigs().get(rig);
    return new RigReader(
        rig,
        new RigOpening(address, ports, settings.sources().absent(), around.time()),
        settings.pipeline().withKept(kept(settings, address)),
        around,
        sink -> trace.before(tap.before(sink)),
        () -> responses.of(rig));
  }

  /**
   * Starts recording.
   *
   * @throws RigInUseException if a rig is being recorded already
   * @throws IOException if a lock or the page's port cannot be had
   * @throws snick.store.database.StoreException if the store cannot be opened
   */
  public static Recorder start(
      Settings settings, CalibrationShelf calibrations, Audience audience, Clock clock)
      throws IOException, RigInUseException {
    Recorder recorder = new Recorder(settings, calibrations, audience, clock);
    try {
      recorder.begin(settings);
      return recorder;
    } catch (IOException | RigInUseException e) {
      recorder.close();
      throw e;
    }
  }

  /** In what columns the text of a rig was read before; the person is told. */
  private Optional<Columns> kept(Settings settings, PortAddress rig) {
    if (!rig.live() || !(settings.pipeline().text() instanceof TextRule.FoundOut)) {
      return Optional.empty();
    }
    try (StoreReader reader = StoreReader.open(settings.dataDirectory())) {
      Optional<Columns> columns = KeptColumns.of(reader, rig.text());
      columns.ifPresent(
          known ->
              word.accept(
                  "text from %s is read as %s, as before; --columns auto finds out anew"
                      .formatted(rig.text(), known.words())));
      return columns;
    }
  }

  private void begin(Settings settings) throws IOException, RigInUseException {
    rigs.lock(settings.rigs(), settings.lockFolder());
    if (settings.page().httpPort().isPresent()) {
      page = Optional.of(ServedPage.start(settings, bench(settings)));
    }
    keeperThread.start();
    rigs.start();
  }

  private Bench bench(Settings settings) {
    return new Bench(
        this::state,
        metrics,
        new Bench.Rigs(
            traces,
            taps,
            new Bench.Scales(
                keeper::calibration,
                rig ->
                    keeper.recording(rig).map(r -> setting(r, settings.pipeline().assumedRate())),
                (calibration, rig) -> calibrated(rig, calibration)),
            ServedPage::ports),
        Bench.Doors.open(settings.dataDirectory(), clock),
        nextSpot,
        complaint -> faults.note("page", complaint),
        clock,
        settings.page().preferences());
  }

  private static RigSetting setting(Recording now, SampleRate assumedRate) {
    return new RigSetting(
        now.deviceId(),
        now.gain().orElse(LiveFeed.USUAL_GAIN),
        now.nominalRate().orElse(assumedRate),
        1);
  }

  /** A full queue is waited for on the page's thread, not on a reader's. */
  private void calibrated(int rig, Calibration calibration) {
    try {
      queue.put(new Work.Calibrated(rig, calibration));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void announce(AnnouncedCut cut, Consumer<AnnouncedCut> audience) {
    announced.incrementAndGet();
    metrics.announced(cut.cut().outcome().word(), cut.latencyNanos());
    page.ifPresent(p -> p.page().announced(cut.rig(), cut.cut().polarity(), cut.id()));
    audience.accept(cut);
  }

  /** An error of this program: said at once; recording ends, for a silent half is worse. */
  private void broken(Thread thread, Throwable error) {
    LOG.error("thread {} ended", thread.getName(), error);
    Phrase what = Phrase.of("fault.internal", "thread", thread.getName(), "error", error);
    faults.note("internal error", what);
    failed = true;
    word.accept(Words.english().say(what));
    rigs.waitNoLonger();
  }

  /** Where along the edge the next cut is going to be, as the person says. */
  public NextSpot nextSpot() {
    return nextSpot;
  }

  /** The loops that go round as long as all is well: the keeper's, and each live rig's. */
  List<Rounds> loops() {
    return Stream.concat(Stream.of(keeper.rounds()), rigs.loops()).toList();
  }

  /** How many events were stored and announced. */
  long announced() {
    return announced.get();
  }

  /** Why rigs could not be opened at all, one sentence each; empty if all were. */
  public List<String> refusals() {
    return rigs.refusals();
  }

  /** Whether those are files alone: they hold nothing that is understood. */
  public boolean refusedFiles() {
    return rigs.refusedFiles();
  }

  /**
   * Whether an error of this program ended the recording, its store was taken away, or finished
   * events are lost; final once it is closed.
   */
  public boolean failed() {
    return failed || keeper.displaced();
  }

  /** How the recorder is doing now. */
  public BenchState state() {
    return new BenchState(
        startedAt,
        rigs.states().stream()
            .map(rig -> rig.withCalibrated(keeper.calibrated(rig.rig())))
            .toList(),
        keeper.storing(),
        queue.size(),
        faults.facts());
  }

  /** TCP port of the page; empty if none is served. */
  public OptionalInt httpPort() {
    return page.stream().mapToInt(p -> p.page().portNumber()).findFirst();
  }

  /** Address of the page, to be opened; empty if none is served. */
  public Optional<String> pageAddress() {
    return page.map(p -> p.page().address());
  }

  /** Lets reading end soon: then {@link #awaitEnd} returns. */
  public void endSoon() {
    rigs.stop();
  }

  /** Waits until every rig's bytes have ended (files), or the recorder is closed. */
  public void awaitEnd() throws InterruptedException {
    rigs.awaitEnd();
  }

  /**
   * Stops: the readers end, the event in flight and all that waits is stored, then everything is
   * closed in reverse order. If the store takes nothing, gives up after ten seconds.
   */
  @Override
  public synchronized void close() {
    if (closed) {
      return;
    }
    closed = true;
    rigs.stop();
    try {
      rigs.join(STOP_WAIT_SECONDS);
      if (keeperThread.isAlive()) {
        queue.offer(new Work.Finish(), STOP_WAIT_SECONDS, TimeUnit.SECONDS);
        keeperThread.join(TimeUnit.SECONDS.toMillis(STOP_WAIT_SECONDS));
      }
      keeper.abandon();
      tellOfLoss();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } finally {
      closeAll();
    }
  }

  private void tellOfLoss() {
    int lost = keeper.unstored();
    if (lost > 0) {
      failed = true;
      word.accept("stopped although " + lost + " finished events are NOT stored: they are lost");
    }
  }

  private void closeAll() {
    page.ifPresent(ServedPage::close);
    store.close();
    rigs.unlock(faults);
  }
}
