package snick.cut;

import java.util.Arrays;

/**
 * How a loading that ends at a break is seen by the samples around it, for one filter: for every
 * phase of the break on the sampling grid and every late sample the weights of the loading's values
 * at the nodes, and the filter's density at the break. Computed once by Gauss–Legendre quadrature.
 */
final class KernelTable {
  /** Phases in a sampling period. */
  static final int PER_PERIOD = 32;

  /** Phases on either side of the reference sample. */
  static final int MOST_PHASE = PER_PERIOD;

  private static final double[] GAUSS_NODES = {
    0.1834346424956498, 0.5255324099163290, 0.7966664774136267, 0.9602898564975363
  };
  private static final double[] GAUSS_WEIGHTS = {
    0.3626837833783620, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763
  };

  private final Kernel kernel;
  private final LateNodes nodes;
  private final Seen[] seen = new Seen[2 * MOST_PHASE + 1];

  KernelTable(Kernel kernel, LateNodes nodes) {
    this.kernel = kernel;
    this.nodes = nodes;
  }

  /** Time of a phase after the reference sample, periods. */
  static double timeOf(int phase) {
    return (double) phase / PER_PERIOD;
  }

  /** The phase nearest to a time after the reference sample in periods, within the table. */
  static int phaseOf(double time) {
    long nearest = Math.round(time * PER_PERIOD);
    return (int) Math.max(-MOST_PHASE, Math.min(MOST_PHASE, nearest));
  }

  /** What the late samples see if the loading ends at a phase. */
  Seen seen(int phase) {
    int at = phase + MOST_PHASE;
    if (seen[at] == null) {
      seen[at] = new Seen(phase);
    }
    return seen[at];
  }

  /** What the late samples see of a loading that ends at one phase. */
  final class Seen {
    final int phase;

    /** Of the nodes for each late sample, then for the force at the break and for its rate. */
    final double[] weights;

    /** The same. */
    final RowBlocks loading;

    /** The filter's share after the break for each late sample. */
    final double[] gone = new double[RampWindow.LATE];

    /** Its weight per period at the break. */
    final double[] densities = new double[RampWindow.LATE];

    private Seen(int phase) {
      this.phase = phase;
      int q = nodes.size();
      weights = new double[(RampWindow.LATE + 2) * q];
      double end = timeOf(phase);
      double[] row = new double[q];
      for (int i = 0; i < RampWindow.LATE; i++) {
        double time = RampWindow.LATE_FROM + i;
        integrate(time, end, row);
        System.arraycopy(row, 0, weights, i * q, q);
        gone[i] = 1 - sum(row);
        densities[i] = kernel.density(time - end);
      }
      System.arraycopy(nodes.sharesAt(phase), 0, weights, RampWindow.LATE * q, q);
      System.arraycopy(nodes.slopeSharesAt(phase), 0, weights, (RampWindow.LATE + 1) * q, q);
      loading = RowBlocks.of(weights, q);
    }
  }

  private static double sum(double[] row) {
    double sum = 0;
    for (double share : row) {
      sum += share;
    }
    return sum;
  }

  private void integrate(double time, double end, double[] row) {
    Arrays.fill(row, 0);
    double[] shares = new double[row.length];
    for (double left = -kernel.half(); left < kernel.half() - 1e-9; left += 0.5) {
      double from = time + left;
      double to = Math.min(end, from + 0.5);
      for (int k = 0; to > from && k < 2 * GAUSS_NODES.length; k++) {
        int g = k / 2;
        double sign = k % 2 == 0 ? 1 : -1;
        double at = 0.5 * (from + to) + sign * 0.5 * (to - from) * GAUSS_NODES[g];
        double weight = 0.5 * (to - from) * GAUSS_WEIGHTS[g] * kernel.density(time - at);
        nodes.shares(at, shares);
        for (int j = 0; j < row.length; j++) {
          row[j] += weight * shares[j];
        }
      }
    }
  }
}
