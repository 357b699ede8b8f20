package snick.verdict.statistic;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;

/** Mid-ranks of pooled readings, doubled so that they are integers; the chosen group first. */
public final class Ranks {
  private final int[] doubled;
  private final int chosen;
  private final double tieTerm;

  private Ranks(int[] doubled, int chosen, double tieTerm) {
    this.doubled = doubled;
    this.chosen = chosen;
    this.tieTerm = tieTerm;
  }

  public static Ranks of(double[] chosen, double[] others) {
    double[] pooled = Arrays.copyOf(chosen, chosen.length + others.length);
    System.arraycopy(others, 0, pooled, chosen.length, others.length);
    Integer[] order = IntStream.range(0, pooled.length).boxed().toArray(Integer[]::new);
    Arrays.sort(order, Comparator.comparingDouble(i -> pooled[i]));
    int[] doubled = new int[pooled.length];
    double tieTerm = 0;
    int from = 0;
    while (from < order.length) {
      int to = from;
      while (to < order.length && pooled[order[to]] == pooled[order[from]]) {
        to++;
      }
      for (int k = from; k < to; k++) {
        doubled[order[k]] = from + to + 1;
      }
      double tied = to - from;
      tieTerm += tied * tied * tied - tied;
      from = to;
    }
    return new Ranks(doubled, chosen.length, tieTerm);
  }

  /** Doubled mid-rank of each reading; not to be written to. */
  public int[] doubled() {
    return doubled;
  }

  /** Size of the chosen group. */
  public int chosen() {
    return chosen;
  }

  /** Sum of t³ − t over groups of t tied readings. */
  double tieTerm() {
    return tieTerm;
  }

  public int count() {
    return doubled.length;
  }

  boolean tied() {
    return tieTerm > 0;
  }

  /** Doubled rank sum of the chosen group. */
  public int sumOfChosen() {
    return Arrays.stream(doubled, 0, chosen).sum();
  }
}
