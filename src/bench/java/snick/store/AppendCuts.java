package snick.store;

import java.nio.file.Path;
import java.time.Clock;
import java.util.Locale;
import snick.cut.Cut;
import snick.store.record.NewCut;

/**
 * Stores cuts as the recorder does, one transaction each, on disk before the next; each is made
 * just before it is stored. Prints the seconds that storing the last of them took. Arguments: a
 * directory, then {@code begin} to make the store and its recording, or the number of cuts to add
 * to that, how many of them are timed, and the samples of a cut.
 */
final class AppendCuts {
  private AppendCuts() {}

  public static void main(String[] args) {
    try (Store store = Store.open(Path.of(args[0]), Clock.systemUTC())) {
      if (args[1].equals("begin")) {
        store.startRecording(Examples.recording());
      } else {
        int cuts = Integer.parseInt(args[1]);
        int timed = Integer.parseInt(args[2]);
        int samples = Integer.parseInt(args[3]);
        append(store, 1, cuts - timed, samples);
        long nanos = append(store, cuts - timed + 1, cuts, samples);
        System.out.printf(Locale.ROOT, "%.4f%n", nanos / 1e9);
      }
    }
  }

  /** Nanoseconds that it took. */
  private static long append(Store store, int first, int last, int samples) {
    long nanos = 0;
    for (int number = first; number <= last; number++) {
      Cut cut = Examples.severed(number, Examples.trace(number, samples));
      long start = System.nanoTime();
      store.append(NewCut.of(1, Examples.NOON, cut));
      nanos += System.nanoTime() - start;
    }
    return nanos;
  }
}
