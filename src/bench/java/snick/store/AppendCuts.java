package snick.store;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import snick.cut.Cut;

/**
 * Stores cuts as the recorder does, one transaction each, on disk before the next. Prints the
 * seconds of the second half. Arguments: a directory, {@code begin} to make the store and its
 * recording, or the number of cuts to add to that; samples a cut.
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
    int half = cuts.size() / 2;
    cuts.subList(0, half).forEach(cut -> store.append(NewCut.of(1, Examples.NOON, cut)));
    long start = System.nanoTime();
    cuts.subList(half, cuts.size()).forEach(cut -> store.append(NewCut.of(1, Examples.NOON, cut)));
    System.out.printf(Locale.ROOT, "%.4f%n", (System.nanoTime() - start) / 1e9);
  }
}
