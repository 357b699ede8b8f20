package snick.cli.exchange;

import java.io.PrintWriter;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import snick.cli.terminal.Progress;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Terminal;
import snick.store.database.Watch;

/**
 * Shows long work on a person's terminal, and stops it in good order on Ctrl-C: the process ends
 * after the work has taken its traces away.
 */
final class StoppedByHand implements Watch {
  private static final long LONGEST_WAIT_SECONDS = 20;

  private final CountDownLatch over = new CountDownLatch(1);
  private final Progress progress;
  private volatile boolean stopping;

  /** Work that is looked after. */
  @FunctionalInterface
  interface Work<T, X extends Exception> {
    T with(Watch watch) throws X;
  }

  /**
   * Does {@code work}, called {@code what}.
   *
   * @throws Refusal if it was stopped
   */
  static <T, X extends Exception> T during(String what, PrintWriter err, Work<T, X> work) throws X {
    StoppedByHand watch = new StoppedByHand(err);
    try {
      return work.with(watch);
    } catch (Stopped e) {
      throw Refusal.failed(what + " " + e.getMessage(), e);
    } finally {
      watch.done();
    }
  }

  private StoppedByHand(PrintWriter err) {
    this.progress = new Progress(err, Terminal.watchesErrors(), 0);
    Runtime.getRuntime().addShutdownHook(new Thread(() -> stopAndWait(err), "stop"));
  }

  private void stopAndWait(PrintWriter err) {
    stopping = true;
    try {
      if (!over.await(LONGEST_WAIT_SECONDS, TimeUnit.SECONDS)) {
        err.println("snick: still at work after 20 s, ended all the same");
        err.flush();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  @Override
  public boolean goesOn(String doing, long done, long total) {
    progress.at(doing, done, total);
    return !stopping;
  }

  /** The work is over, its traces taken away: the process may end. Takes the progress away. */
  private void done() {
    progress.done();
    over.countDown();
  }
}
