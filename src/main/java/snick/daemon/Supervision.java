package snick.daemon;

import java.io.IOException;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import snick.live.BenchState;
import snick.live.RigState;
import snick.service.Supervisor;

/**
 * Tells a supervisor how a recorder does: ready once a rig is open or waited for, alive as long as
 * every reader and the keeper go round. A thread that hangs is thus noticed, and so is one that
 * waits for it; a rig that is silent or unplugged and a full disk are not, since starting anew
 * would mend neither and lose what waits to be stored.
 */
public final class Supervision implements AutoCloseable {
  private static final long MOST_NANOS = TimeUnit.SECONDS.toNanos(1);
  private static final int LOOKS_IN_PATIENCE = 4;

  private final Recorder recorder;
  private final Supervisor supervisor;
  private final Consumer<String> complain;
  private final ProgressWatch progress;
  private final ScheduledExecutorService looking =
      Executors.newSingleThreadScheduledExecutor(Supervision::thread);
  private ScheduledFuture<?> looks;
  private boolean ready;
  private volatile boolean complained;
  private String status = "";

  private Supervision(Recorder recorder, Supervisor supervisor, Consumer<String> complain) {
    this.recorder = recorder;
    this.supervisor = supervisor;
    this.complain = complain;
    this.progress = new ProgressWatch(recorder.loops());
  }

  private static Thread thread(Runnable work) {
    Thread thread = new Thread(work, "supervision");
    thread.setDaemon(true);
    return thread;
  }

  /**
   * Starts to tell {@code supervisor}.
   *
   * @param complain takes one line for the person if that does not work
   */
  public static Supervision begin(
      Recorder recorder, Supervisor supervisor, Consumer<String> complain) {
    Supervision supervision = new Supervision(recorder, supervisor, complain);
    long patienceNanos = supervisor.patienceNanos().orElse(Long.MAX_VALUE);
    long everyNanos = Math.max(1, Math.min(MOST_NANOS, patienceNanos / LOOKS_IN_PATIENCE));
    supervision.start(everyNanos);
    return supervision;
  }

  /** An error of this program ends the looks, and with them the pings. */
  private void start(long everyNanos) {
    looks = looking.scheduleWithFixedDelay(this::look, 0, everyNanos, TimeUnit.NANOSECONDS);
  }

  private void look() {
    try {
      BenchState state = recorder.state();
      if (!ready && state.rigs().stream().anyMatch(Supervision::atWork)) {
        supervisor.ready();
        ready = true;
      }
      if (progress.allWent() && supervisor.patienceNanos().isPresent()) {
        supervisor.alive();
      }
      tell(words(state));
    } catch (IOException e) {
      complainOnce(e);
    }
  }

  private void complainOnce(IOException e) {
    if (!complained) {
      complained = true;
      complain.accept(e.getMessage());
    }
  }

  private static boolean atWork(RigState rig) {
    return switch (rig.link()) {
      case AWAITING_RIG, AWAITING_HELLO, RECORDING, SILENT, LOST -> true;
      case OPENING, ENDED -> false;
    };
  }

  private void tell(String now) throws IOException {
    if (!now.equals(status)) {
      supervisor.status(now);
      status = now;
    }
  }

  private String words(BenchState state) {
    long awaited = count(state, RigState.Link.AWAITING_RIG);
    return (state.storing() ? "" : "NOT STORING; ")
        + count(state, RigState.Link.RECORDING)
        + " of "
        + state.rigs().size()
        + " rigs recording"
        + (awaited > 0 ? ", waiting for " + awaited + " not there yet" : "")
        + "; cuts stored: "
        + recorder.announced();
  }

  private static long count(BenchState state, RigState.Link link) {
    return state.rigs().stream().filter(rig -> rig.link() == link).count();
  }

  /** Says that the service is about to end, and tells no more. */
  @Override
  public void close() {
    if (looking.isShutdown()) {
      return;
    }
    looks.cancel(false);
    looking.shutdown();
    try {
      looking.awaitTermination(1, TimeUnit.SECONDS);
      supervisor.stopping();
    } catch (IOException e) {
      complainOnce(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } finally {
      supervisor.close();
    }
  }
}
