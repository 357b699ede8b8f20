package snick.cli;

import java.io.PrintWriter;
import java.util.concurrent.TimeUnit;
import snick.exchange.Watch;

/**
 * Shows long work over cuts on a person's terminal, and stops it in good order on Ctrl-C: the
 * process ends after the work has taken its traces away.
 */
final class StoppedByHand implements Watch {
  private static final long LONGEST_WAIT_SECONDS = 20;

  private final PrintWriter err;
  private volatile boolean stopping;
  private Progress progress;
  private long total = -1;

  StoppedByHand(PrintWriter err) {
    this.err = err;
    this.progress = new Progress(err, false, 0);
    Thread work = Thread.currentThread();
    Runtime.getRuntime().addShutdownHook(new Thread(() -> stopAndWait(work), "stop"));
  }

  private void stopAndWait(Thread work) {
    stopping = true;
    try {
      work.join(TimeUnit.SECONDS.toMillis(LONGEST_WAIT_SECONDS));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  @Override
  public boolean goesOn(long done, long of) {
    if (of != total) {
      total = of;
      progress.done();
      progress = new Progress(err, Terminal.watchesErrors(), of);
    }
    progress.at(done, done);
    return !stopping;
  }

  /** Takes the line of progress away. */
  void done() {
    progress.done();
  }
}
