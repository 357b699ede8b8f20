package snick.cli;

import java.io.PrintWriter;
import java.util.concurrent.TimeUnit;
import snick.store.Watch;

/**
 * Shows long work on a person's terminal, and stops it in good order on Ctrl-C: the process ends
 * after the work has taken its traces away.
 */
final class StoppedByHand implements Watch {
  private static final long LONGEST_WAIT_SECONDS = 20;

  private final Progress progress;
  private volatile boolean stopping;

  StoppedByHand(PrintWriter err) {
    this.progress = new Progress(err, Terminal.watchesErrors(), 0);
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
  public boolean goesOn(String doing, long done, long total) {
    progress.at(doing, done, total);
    return !stopping;
  }

  /** Takes the line of progress away. */
  void done() {
    progress.done();
  }
}
