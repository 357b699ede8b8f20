package snick.verdict.statistic;

import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/** Holm's adjustment of several p-values (S. Holm, Scand. J. Stat. 6, 1979). */
public final class Holm {
  private Holm() {}

  /** Adjusted p-values in the order given. */
  public static double[] adjusted(double[] p) {
    List<Integer> order =
        IntStream.range(0, p.length).boxed().sorted(Comparator.comparingDouble(i -> p[i])).toList();
    double[] adjusted = new double[p.length];
    double least = 0;
    for (int rank = 0; rank < p.length; rank++) {
      int i = order.get(rank);
      least = Math.min(1, Math.max(least, p[i] * (p.length - rank)));
      adjusted[i] = least;
    }
    return adjusted;
  }
}
