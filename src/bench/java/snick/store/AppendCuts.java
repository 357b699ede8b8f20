package snick.store;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import snick.cut.Cut;

/**
 * Stores cuts as the recorder does, one transaction each, on disk before the next. Prints seconds.
 * Arguments: a directory, {@code begin} to make the store and its recording, or the number of cuts
 * to add to that; samples a cut.
 */
final class AppendCuts {
  private AppendCuts() {}

  public static void main(String[] args) {
    try (Store store = Store.open(Path.of(args[0]), Clock.systemUTC())) {
      if (args[1].equals("begin")) {
        store.startRecording(Examples.recording());
      } else {
        append(store, cuts(Integer.parseInt(args[1]), Integer.parseInt(args[2])));
      }
    }
  }

  private static List<Cut> cuts(int number, int samples) {
    return IntStream.rangeClosed(1, number)
        .mapToObj(i -> Examples.severed(i, Examples.trace(i, samples)))
        .toList();
  }

  private static void append(Store store, List<Cut> cuts) {
    Instant at = Examples.NOON;
    long start = System.nanoTime();
    for (Cut cut : cuts) {
      store.append(NewCut.of(1, at, cut));
    }
    System.out.printf(Locale.ROOT, "%.4f%n", (System.nanoTime() - start) / 1e9);
  }
}
