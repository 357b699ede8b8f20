package snick.daemon;

import java.util.concurrent.TimeUnit;
import snick.phrase.Phrase;

/** How a reader's finished work reaches the keeper: by the bounded queue. The reader's thread. */
final class Handover {
  private static final long QUEUE_WAIT_SECONDS = 1;

  private final String port;
  private final Surroundings around;
  private final Rounds rounds;

  Handover(String port, Surroundings around, Rounds rounds) {
    this.port = port;
    this.around = around;
    this.rounds = rounds;
  }

  /** Puts {@code work} into the queue; waits as long as it is full, and says so. */
  void put(Work work) {
    if (around.queue().offer(work)) {
      return;
    }
    Phrase what = Phrase.of("fault.queue_full", "port", port);
    if (around.faults().note("queue full", what)) {
      around.say(what);
    }
    try {
      while (!around.queue().offer(work, QUEUE_WAIT_SECONDS, TimeUnit.SECONDS)) {
        rounds.went();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
