package snick.daemon;

import java.time.Duration;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import snick.cut.Outcome;
import snick.daemon.link.HostTime;
import snick.force.budget.Calibration;
import snick.force.budget.DerivedForce;
import snick.live.NextSpot;
import snick.phrase.Phrase;
import snick.store.Store;
import snick.store.database.StoreException;
import snick.store.record.CutForce;
import snick.store.record.NewCut;
import snick.store.record.Recording;

/**
 * The only writer: takes finished cuts, gives them a force, stores them, and announces them after
 * the commit. When the store takes nothing (disk full), work waits here in bounded memory and the
 * person is told at once. Once the store is gone (deleted, moved), nothing is announced any more:
 * cuts go to a {@link Refuge}. Runs on its own thread.
 */
final class Keeper implements Runnable {
  private static final Duration RETRY = Duration.ofSeconds(1);
  private static final long WAIT_SECONDS = 1;

  private final BlockingQueue<Work> queue;
  private final HostTime time;
  private final Store store;
  private final CalibrationShelf calibrations;
  private final RigResponses responses;
  private final NextSpot nextSpot;
  private final Refuge refuge;
  private final FaultLog faults;
  private final Consumer<AnnouncedCut> announce;
  private final Surroundings around;
  private final List<Optional<Current>> current;
  private final Set<Phrase> warned = new HashSet<>();

  /** Ids of calibrations that gave a force that can be, and are in the store. */
  private final Set<String> proven = new HashSet<>();

  private final Rounds rounds = new Rounds();
  private volatile boolean storing = true;
  private volatile boolean tryingCut;
  private volatile boolean abandoned;
  private volatile boolean displaced;

  /** The recording that a rig's cuts belong to now, and its calibration. */
  private record Current(long recordingId, Recording recording, Scale scale) {
    Current with(Scale other) {
      return new Current(recordingId, recording, other);
    }
  }

  Keeper(
      int rigs,
      Store store,
      CalibrationShelf calibrations,
      RigResponses responses,
      NextSpot nextSpot,
      Refuge refuge,
      Consumer<AnnouncedCut> announce,
      Surroundings around) {
    this.queue = around.queue();
    this.time = around.time();
    this.store = store;
    this.calibrations = calibrations;
    this.responses = responses;
    this.nextSpot = nextSpot;
    this.refuge = refuge;
    this.faults = around.faults();
    this.announce = announce;
    this.around = around;
    this.current = new CopyOnWriteArrayList<>(Collections.nCopies(rigs, Optional.empty()));
  }

  @Override
  public void run() {
    try {
      Work work = next();
      while (!(work instanceof Work.Finish)) {
        keepTrying(work);
        work = next();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } finally {
      refuge.close();
      rounds.end();
    }
  }

  private Work next() throws InterruptedException {
    Work work = null;
    while (work == null) {
      rounds.went();
      work = queue.poll(WAIT_SECONDS, TimeUnit.SECONDS);
      lookForStore();
    }
    return work;
  }

  private void lookForStore() {
    try {
      if (!displaced) {
        store.requireInPlace();
      }
    } catch (StoreException gone) {
      displace(gone);
    }
  }

  private void displace(StoreException gone) {
    displaced = true;
    storing = false;
    around.report(
        "store gone",
        Phrase.of("fault.store_gone", "why", gone.why(), "folder", refuge.directory()));
  }

  /** Whether this thread goes on; any thread. */
  Rounds rounds() {
    return rounds;
  }

  /** Whether the store takes what it is given. */
  boolean storing() {
    return storing;
  }

  /** Whether the store was deleted, moved or renamed; any thread. */
  boolean displaced() {
    return displaced;
  }

  /** Whether cuts of {@code rig} get a force. */
  boolean calibrated(int rig) {
    return calibration(rig).isPresent();
  }

  /** The recording that a rig's cuts belong to now; any thread. */
  Optional<Recording> recording(int rig) {
    return current.get(rig).map(Current::recording);
  }

  /** The calibration that gives cuts of {@code rig} a force; any thread. */
  Optional<Calibration> calibration(int rig) {
    return current.get(rig).flatMap(c -> c.scale().calibration());
  }

  /** Finished events that wait to be stored, the one being tried included. */
  int unstored() {
    long waiting = queue.stream().filter(work -> work instanceof Work.CutFinished).count();
    return (int) waiting + (tryingCut ? 1 : 0);
  }

  /** Gives up what cannot be stored: the person insists on stopping. */
  void abandon() {
    abandoned = true;
  }

  private void keepTrying(Work work) throws InterruptedException {
    tryingCut = work instanceof Work.CutFinished;
    boolean kept = attempt(work);
    while (!kept && !abandoned) {
      rounds.went();
      time.pause(RETRY);
      kept = attempt(work);
    }
    tryingCut &= !kept;
  }

  private boolean attempt(Work work) {
    try {
      keep(work);
      if (displaced) {
        return true;
      }
      if (!storing) {
        around.say("fault.storing_again");
      }
      storing = true;
      return true;
    } catch (StoreException e) {
      if (e.trouble() == StoreException.Trouble.GONE && !displaced) {
        displace(e);
        return false;
      }
      boolean firstOfAll = faults.note("store", e.why());
      if (storing || firstOfAll) {
        around.say("fault.not_stored", "why", e.why(), "n", queue.size());
      }
      storing = false;
      return false;
    }
  }

  private void keep(Work work) {
    if (displaced) {
      keepBeside(work);
    } else if (work instanceof Work.StreamBegan began) {
      begin(began);
    } else if (work instanceof Work.ClockFitted fitted) {
      current.get(work.rig()).ifPresent(c -> fitClock(c, fitted));
    } else if (work instanceof Work.CutFinished finished) {
      current.get(work.rig()).ifPresent(c -> keepCut(c, finished));
    } else if (work instanceof Work.Calibrated made) {
      current.set(
          work.rig(), current.get(work.rig()).map(c -> c.with(Scale.by(made.calibration()))));
    }
  }

  private void keepBeside(Work work) {
    if (work instanceof Work.StreamBegan began) {
      current.set(
          work.rig(), Optional.of(new Current(0, began.recording(), Scale.none(List.of()))));
    } else if (work instanceof Work.CutFinished finished) {
      long id = refuge.keep(current.get(work.rig()).orElseThrow().recording(), finished);
      around.say("fault.kept_beside", "id", id, "folder", refuge.directory());
    }
  }

  private void begin(Work.StreamBegan began) {
    began.form().ifPresent(store::add);
    Scale scale = calibrations.forRecording(began.recording());
    goOnLearning(began);
    long id = store.startRecording(began.recording());
    current.set(began.rig(), Optional.of(new Current(id, began.recording(), scale)));
    scale
        .reasons()
        .forEach(
            reason ->
                around.say(
                    scale
                        .remedy()
                        .map(by -> Phrase.of("scale.with_remedy", "why", reason, "remedy", by))
                        .orElse(reason)));
    scale.warnings().forEach(this::warn);
  }

  /** A trace that is damaged keeps nobody from recording. */
  private void goOnLearning(Work.StreamBegan began) {
    try {
      responses.begin(began.rig(), began.recording());
    } catch (StoreException e) {
      faults.note("response", Phrase.of("fault.falls_not_read", "why", e.why()));
    }
  }

  /** Comes once a minute, so that a check mass that has grown old is noticed too. */
  private void fitClock(Current rig, Work.ClockFitted fitted) {
    store.setClock(rig.recordingId(), fitted.clock());
    calibrations.forRecording(rig.recording()).warnings().forEach(this::warn);
  }

  /** Says each warning once; the page shows it among the faults. */
  private void warn(Phrase warning) {
    if (warned.add(warning)) {
      around.report("calibration", warning);
    }
  }

  private void keepCut(Current rig, Work.CutFinished finished) {
    DerivedForce estimate = rig.scale().estimate(finished.cut());
    DerivedForce observed = rig.scale().observedMaximum(finished.cut());
    boolean stands = observed.measured().isPresent() && proves(rig, estimate);
    DerivedForce force = stands ? estimate : withheld(rig, finished, estimate);
    DerivedForce largest = stands ? observed : force;
    OptionalDouble placeMm = nextSpot.get();
    NewCut plain =
        NewCut.of(rig.recordingId(), finished.occurredAt(), finished.cut()).inRunningStage(placeMm);
    NewCut cut =
        largest
            .measured()
            .map(m -> plain.with(new CutForce(force, m.value())))
            .orElseGet(() -> plain.without(force.missing()));
    long id = store.append(cut);
    if (finished.cut().outcome() != Outcome.RELEASED) {
      nextSpot.used(placeMm);
    }
    announce.accept(
        new AnnouncedCut(
            id, finished.rig(), cut, force, time.monotonicNanos() - finished.endedNanos()));
    learn(rig, finished, id);
  }

  /** The cut is stored and announced: if what it teaches is not, nothing is lost. */
  private void learn(Current rig, Work.CutFinished finished, long cutId) {
    try {
      responses.kept(finished.rig(), rig.recording(), cutId, finished.cut());
    } catch (StoreException e) {
      faults.note("response", Phrase.of("fault.response_not_stored", "why", e.why()));
    }
  }

  /**
   * Whether a force may stand with its calibration, which is in the store then: one that was typed
   * in is believed, and kept for later runs, once a force by it can be.
   */
  private boolean proves(Current rig, DerivedForce force) {
    Optional<Calibration> by = rig.scale().calibration();
    if (force.measured().isEmpty() || by.isEmpty()) {
      return false;
    }
    boolean can = force instanceof DerivedForce.Inside || by.get().boundTo().isPresent();
    if (can && !proven.contains(by.get().id())) {
      store.add(by.get(), Optional.empty());
      proven.add(by.get().id());
    }
    return proven.contains(by.get().id());
  }

  /** The cut stays in counts; what is wrong with the scale is said once. */
  private DerivedForce withheld(Current rig, Work.CutFinished finished, DerivedForce force) {
    DerivedForce.Uncalibrated none =
        force instanceof DerivedForce.Uncalibrated why
            ? why
            : new DerivedForce.Uncalibrated(List.of(Phrase.of("scale.implausible")));
    if (rig.scale().calibration().isPresent() && finished.cut().peak().isPresent()) {
      none.reasons().forEach(reason -> warn(Phrase.of("scale.stored_in_counts", "why", reason)));
    }
    return none;
  }
}
