package snick.view;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import java.util.stream.IntStream;
import snick.report.plot.BladeStory;
import snick.store.StoreReader;

/**
 * How soon a blade's history is read and the page answers on a store that {@code FillStore} made.
 * Arguments: the folder whose folder {@code data} is the store. Prints a Markdown table.
 */
final class TenYears {
  private static final int WARM = 10;
  private static final int TIMES = 40;
  private static final List<String> ASKED =
      List.of(
          "/api/v1/bench",
          "/api/v1/state",
          "/api/v1/sessions?limit=50",
          "/api/v1/sessions?limit=50&before=1000",
          "/api/v1/sessions?limit=50&text=blade%207",
          "/api/v1/sessions/1000",
          "/api/v1/sessions/1000/comparison?first=stage%201&second=stage%205",
          "/api/v1/steps",
          "/api/v1/cuts?limit=50",
          "/api/v1/cuts/50000",
          "/api/v1/blades",
          "/api/v1/blades/history?blade=blade%207");

  private TenYears() {}

  public static void main(String[] args) throws Exception {
    Path folder = Path.of(args[0]);
    System.out.println("| what | median | 95 % within | longest |\n|---|---:|---:|---:|");
    try (StoreReader store = StoreReader.open(folder.resolve("data"))) {
      var blade = store.journal().bladeMeant("blade 7");
      measure(
          "a blade's history, read",
          () -> BladeStory.read(store, blade, OptionalDouble.empty()).visits().size());
    }
    try (TestBench bench = new TestBench(folder)) {
      for (String path : ASKED) {
        measure(path, () -> answered(bench, path));
      }
      Iterator<Integer> others = IntStream.iterate(200, n -> n + 7).iterator();
      measure(
          "/api/v1/sessions/…, another each time",
          () -> answered(bench, "/api/v1/sessions/" + others.next()));
    }
  }

  private static int answered(TestBench bench, String path) throws Exception {
    var answer = bench.get(path);
    if (answer.statusCode() != 200) {
      throw new IOException(path + " gave " + answer.statusCode() + " " + answer.body());
    }
    return answer.body().length();
  }

  private static void measure(String what, Callable<Integer> act) throws Exception {
    for (int i = 0; i < WARM; i++) {
      act.call();
    }
    double[] milliseconds = new double[TIMES];
    for (int i = 0; i < TIMES; i++) {
      long start = System.nanoTime();
      act.call();
      milliseconds[i] = (System.nanoTime() - start) / 1e6;
    }
    Arrays.sort(milliseconds);
    System.out.printf(
        Locale.ROOT,
        "| %s | %.1f ms | %.1f ms | %.1f ms |%n",
        what,
        milliseconds[TIMES / 2],
        milliseconds[TIMES * 95 / 100],
        milliseconds[TIMES - 1]);
  }
}
