package snick.cli.recorder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.ToLongFunction;
import java.util.stream.Stream;

/**
 * What a process holds at one moment, from Linux's /proc.
 *
 * @param residentKilobytes memory in use, kB
 * @param threads number of threads
 * @param files number of open file handles
 */
record Footprint(long residentKilobytes, long threads, long files) {
  /** What a just-in-time compiler and a heap below its limit may still take. */
  private static final long WARMING_KILOBYTES = 60_000;

  private static final long A_FEW = 3;

  static Footprint of(long process) throws IOException {
    Path folder = Path.of("/proc", Long.toString(process));
    List<String> status = Files.readAllLines(folder.resolve("status"));
    try (Stream<Path> files = Files.list(folder.resolve("fd"))) {
      return new Footprint(field(status, "VmRSS:"), field(status, "Threads:"), files.count());
    }
  }

  private static long field(List<String> status, String name) {
    String line = status.stream().filter(l -> l.startsWith(name)).findFirst().orElseThrow();
    return Long.parseLong(line.replaceAll("\\D+", ""));
  }

  /** The last quarter of a run needs no more than its second quarter. */
  static void requireFlat(List<Footprint> run) {
    List<Footprint> second = run.subList(run.size() / 4, run.size() / 2);
    List<Footprint> last = run.subList(run.size() * 3 / 4, run.size());
    System.out.printf(
        "soak, second quarter against last: %d and %d MB, %d and %d threads, %d and %d files%n",
        most(second, Footprint::residentKilobytes) / 1000,
        most(last, Footprint::residentKilobytes) / 1000,
        most(second, Footprint::threads),
        most(last, Footprint::threads),
        most(second, Footprint::files),
        most(last, Footprint::files));
    assertThat(most(last, Footprint::residentKilobytes))
        .isLessThan(most(second, Footprint::residentKilobytes) + WARMING_KILOBYTES);
    assertThat(most(last, Footprint::threads))
        .isLessThanOrEqualTo(most(second, Footprint::threads) + A_FEW);
    assertThat(most(last, Footprint::files))
        .isLessThanOrEqualTo(most(second, Footprint::files) + A_FEW);
  }

  private static long most(List<Footprint> run, ToLongFunction<Footprint> what) {
    return run.stream().mapToLong(what).max().orElseThrow();
  }
}
