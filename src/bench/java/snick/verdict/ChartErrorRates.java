package snick.verdict;

import java.io.PrintStream;
import java.util.Locale;
import java.util.Random;
import snick.force.check.EwmaChart;
import snick.force.check.IndividualsChart;
import snick.verdict.statistic.Readings;
import snick.verdict.study.ReferenceChart;

/**
 * Prints how often the control chart of a reference edge signals in 20 later cuts, unchanged or
 * shifted, with limits widened for the baseline and with those of a known scatter. Normal scatter,
 * fixed seed. Run: {@code java -cp target/classes:target/test-classes:<dependencies>
 * snick.verdict.ChartErrorRates [runs]}.
 */
public final class ChartErrorRates {
  private static final int RUNS = 100_000;
  private static final int LATER = 20;
  private static final long SEED = 8;
  private static final double RANGE_LIMIT = 3.267;

  private ChartErrorRates() {}

  /** Optional argument: runs of each kind. */
  public static void main(String[] args) {
    print(System.out, args.length == 0 ? RUNS : Integer.parseInt(args[0]));
  }

  public static void print(PrintStream out, int runs) {
    out.printf(
        Locale.ROOT,
        "runs of %d later cuts with a signal, %%, of %d; shift in standard deviations%n"
            + "%-9s %9s %9s %9s %9s %9s %14s%n",
        LATER,
        runs,
        "baseline",
        "shift 0",
        "shift 1",
        "shift 2",
        "shift 3",
        "shift 4",
        "as if known");
    for (int baseline : new int[] {8, 20, 50}) {
      out.printf(Locale.ROOT, "%-9d", baseline);
      for (int shift = 0; shift <= 4; shift++) {
        out.printf(Locale.ROOT, " %9.1f", 100 * widened(baseline, shift, runs).runsWithSignal());
      }
      out.printf(Locale.ROOT, " %14.1f%n", 100 * asIfKnown(baseline, runs));
    }
  }

  /**
   * What the chart did.
   *
   * @param runsWithSignal share of runs with a signal
   * @param signalsPerRun mean number of signals
   */
  public record Rates(double runsWithSignal, double signalsPerRun) {}

  /** The chart as it is, on later cuts shifted by so many standard deviations. */
  public static Rates widened(int baseline, double shift, int runs) {
    Random random = new Random(SEED);
    int signalled = 0;
    int signals = 0;
    for (int i = 0; i < runs; i++) {
      ReferenceChart chart =
          ReferenceChart.of(
              Readings.ofGramForce("baseline", values(random, baseline, 0)),
              Readings.ofGramForce("later", values(random, LATER, shift)));
      signals += chart.signals().size();
      signalled += chart.signals().isEmpty() ? 0 : 1;
    }
    return new Rates((double) signalled / runs, (double) signals / runs);
  }

  /** Share of runs with a signal if mean and scatter of the baseline are taken as known. */
  private static double asIfKnown(int baseline, int runs) {
    Random random = new Random(SEED);
    int signalled = 0;
    for (int i = 0; i < runs; i++) {
      IndividualsChart limits = IndividualsChart.of(values(random, baseline, 0));
      signalled += signals(limits, values(random, LATER, 0)) ? 1 : 0;
    }
    return (double) signalled / runs;
  }

  private static boolean signals(IndividualsChart limits, double... later) {
    boolean signal = !limits.signals(later).isEmpty();
    for (int i = 1; i < later.length; i++) {
      signal |= Math.abs(later[i] - later[i - 1]) > RANGE_LIMIT * limits.meanMovingRange();
    }
    EwmaChart weighted = EwmaChart.usual(limits.centre(), limits.sigma());
    return signal || weighted.chart(later).stream().anyMatch(point -> !point.within());
  }

  private static double[] values(Random random, int count, double shift) {
    return random.doubles(count).map(unused -> 100 + 8 * (shift + random.nextGaussian())).toArray();
  }
}
