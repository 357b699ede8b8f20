package snick.daemon;

import java.time.Clock;
import java.util.concurrent.BlockingQueue;
import java.util.function.Consumer;
import snick.daemon.link.HostTime;
import snick.phrase.Phrase;
import snick.phrase.Words;

/**
 * What readers and keeper work among.
 *
 * @param queue finished work on its way from the readers to the keeper; bounded
 * @param clock wall clock
 * @param time monotonic time
 * @param faults what went wrong
 * @param tell takes one line for the person at the terminal, in English, on any thread
 */
record Surroundings(
    BlockingQueue<Work> queue, Clock clock, HostTime time, FaultLog faults, Consumer<String> tell) {
  /** Tells the person at the terminal. */
  void say(Phrase what) {
    tell.accept(Words.english().say(what));
  }

  /** Notes a fault of this kind and tells the person. */
  void report(String kind, Phrase what) {
    faults.note(kind, what);
    say(what);
  }

  /** As {@link #say(Phrase)}: the text {@code key} with {@code values}. */
  void say(String key, Object... values) {
    say(Phrase.of(key, values));
  }
}
