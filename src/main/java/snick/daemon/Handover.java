package snick.daemon;

import java.util.concurrent.TimeUnit;
import snick.phrase.Phrase;

/**
 * How a reader's finished work reaches the keeper: by the bounded queue. The reader's thread.
 *
 * @param port address of the rig, for people
 * @param around queue and faults
 * @param rounds told of every wait
 */
record Handover(String port, Surroundings around, Rounds rounds) {
  private static final long QUEUE_WAIT_SECONDS = 1;

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
