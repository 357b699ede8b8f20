package snick.cut;

import java.util.Arrays;

/**
 * The loading near the break, given by its values at a few instants (Chebyshev nodes) and the
 * polynomial through them. Time in periods after the reference sample.
 */
final class LateNodes {
  /** Where the earliest late sample begins to see, periods. */
  private static final double FROM = RampWindow.LATE_FROM - Kernel.LONGEST_HALF;

  private static final double TO = 1;
  private static final int LEAST = 4;
  private static final int PER_CYCLE = 4;

  private final double[] at;
  private final double[] barycentric;
  private final double[][] atPhase = new double[2 * KernelTable.MOST_PHASE + 1][];
  private final double[][] slopeAtPhase = new double[2 * KernelTable.MOST_PHASE + 1][];

  /** Nodes enough for a loading with frequencies up to this one, in cycles per period. */
  LateNodes(double highestFrequency) {
    int q = LEAST + (int) Math.ceil(PER_CYCLE * highestFrequency * (TO - FROM));
    at = new double[q];
    barycentric = new double[q];
    for (int j = 0; j < q; j++) {
      double angle = Math.PI * (2 * j + 1) / (2 * q);
      at[j] = 0.5 * (FROM + TO) + 0.5 * (TO - FROM) * Math.cos(angle);
      barycentric[j] = (j % 2 == 0 ? 1 : -1) * Math.sin(angle);
    }
    for (int i = 0; i < atPhase.length; i++) {
      double time = KernelTable.timeOf(i - KernelTable.MOST_PHASE);
      atPhase[i] = new double[q];
      slopeAtPhase[i] = new double[q];
      shares(time, atPhase[i]);
      slopeShares(time, slopeAtPhase[i]);
    }
  }

  int size() {
    return at.length;
  }

  /** Time of a node. */
  double time(int j) {
    return at[j];
  }

  /** Share of each node's value in the value at a time (barycentric form). */
  void shares(double time, double[] out) {
    double sum = 0;
    for (int j = 0; j < at.length; j++) {
      double distance = time - at[j];
      if (Math.abs(distance) < 1e-12) {
        Arrays.fill(out, 0);
        out[j] = 1;
        return;
      }
      out[j] = barycentric[j] / distance;
      sum += out[j];
    }
    for (int j = 0; j < at.length; j++) {
      out[j] /= sum;
    }
  }

  /** Share of each node's value in the value at a phase. */
  double[] sharesAt(int phase) {
    return atPhase[phase + KernelTable.MOST_PHASE];
  }

  /** Share of each node's value in the slope at a phase, per period. */
  double[] slopeSharesAt(int phase) {
    return slopeAtPhase[phase + KernelTable.MOST_PHASE];
  }

  private void slopeShares(double time, double[] out) {
    double step = 1e-3;
    double[] before = new double[out.length];
    shares(time - step, before);
    shares(time + step, out);
    for (int j = 0; j < out.length; j++) {
      out[j] = (out[j] - before[j]) / (2 * step);
    }
  }
}
