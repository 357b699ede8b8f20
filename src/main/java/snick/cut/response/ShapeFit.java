package snick.cut.response;

import java.util.Arrays;
import java.util.List;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;
import org.ejml.interfaces.linsol.LinearSolverDense;

/**
 * The mean fall of several, each moved to where it fits best: equivalent-time sampling. A chain of
 * straight pieces with penalised bends (after Eilers and Marx, Flexible smoothing with B-splines
 * and penalties, Statistical Science 11 (1996) 89, from memory) and the shifts take turns.
 */
final class ShapeFit {
  /** Pieces per sampling period, and the shortest piece. */
  static final double PIECES_A_PERIOD = 6;

  private static final double SHORTEST_PIECE_SECONDS = 0.0005;

  /** Reach before and after the half fall: a filter's memory and what parting and fixture take. */
  private static final double REACH_PERIODS = 3.5;

  private static final double REACH_SECONDS = 0.012;

  /** Usual bend from one piece to the next, shares: penalised beyond. */
  private static final double USUAL_BEND = 0.05;

  /** Usual shift of a fall against its half crossing, periods. */
  private static final double USUAL_SHIFT_PERIODS = 0.25;

  /** Usual share of the force that remains after a fall. */
  private static final double USUAL_REMAINDER = 0.03;

  /** Turns in which shape, shifts and remainders are fitted, each with the others held. */
  private static final int TURNS = 12;

  /** What readings usually lie off the shape, to begin with, shares. */
  private static final double FIRST_SIGMA = 0.02;

  /** A remainder moves by no more in a turn, shares. */
  private static final double MOST_REMAINDER_STEP = 0.02;

  /** Least spread, shares: weights stay finite. */
  private static final double LEAST_SIGMA = 1e-4;

  private final List<SeenFall> falls;
  private final double first;
  private final double step;
  private final int size;
  private final double[] shifts;
  private final double[] remainders;
  private double[] shares;
  private double[] means;
  private double sigma;

  ShapeFit(List<SeenFall> falls) {
    this.falls = falls;
    double period =
        falls.stream()
            .mapToDouble(SeenFall::periodSeconds)
            .sorted()
            .skip(falls.size() / 2)
            .findFirst()
            .orElseThrow();
    step = Math.max(period / PIECES_A_PERIOD, SHORTEST_PIECE_SECONDS);
    double reach = REACH_PERIODS * period + REACH_SECONDS;
    size = 2 * (int) Math.ceil(reach / step) + 1;
    first = -(size / 2) * step;
    shifts = new double[falls.size()];
    remainders = new double[falls.size()];
    shares = new double[size];
    for (int i = 0; i < size; i++) {
      double at = (first + i * step) / (2 * period);
      shares[i] = Math.max(0, Math.min(1, 0.5 - at));
    }
    sigma = FIRST_SIGMA;
  }

  /** Turns until neither moves much. */
  ShapeFit fitted() {
    for (int turn = 0; turn < TURNS; turn++) {
      chain();
      for (int j = 0; j < falls.size(); j++) {
        move(j);
      }
      sigma = spread();
    }
    chain();
    return this;
  }

  private StepShape shape() {
    return new StepShape(first, step, shares, means == null ? new double[size] : means);
  }

  /** Share that a reading stands for: its remainder and the loading taken off. */
  private double share(SeenFall fall, int j, int i, StepShape shape) {
    double t = fall.seconds(i) - shifts[j];
    double loading = fall.ratePerSecond() * shape.areaFrom(t);
    return (fall.share(i) + loading - remainders[j]) / (1 - remainders[j]);
  }

  private boolean within(double t) {
    return t > first && t < first + (size - 1) * step;
  }

  private void chain() {
    StepShape shape = shape();
    DMatrixRMaj a = new DMatrixRMaj(size, size);
    DMatrixRMaj b = new DMatrixRMaj(size, 1);
    for (int j = 0; j < falls.size(); j++) {
      SeenFall fall = falls.get(j);
      for (int i = 0; i < fall.size(); i++) {
        double t = fall.seconds(i) - shifts[j];
        if (within(t)) {
          double y = share(fall, j, i, shape);
          add(a, b, t, y, weight((y - shape.at(t)), fall));
        }
      }
    }
    bends(a);
    add(a, b, first + 1e-9, 1, 1e6);
    LinearSolverDense<DMatrixRMaj> solver = LinearSolverFactory_DDRM.chol(size);
    DMatrixRMaj x = new DMatrixRMaj(size, 1);
    if (!solver.setA(a.copy())) {
      return;
    }
    solver.solve(b, x);
    shares = Arrays.copyOf(x.data, size);
    DMatrixRMaj inverse = new DMatrixRMaj(size, size);
    solver.invert(inverse);
    means = new double[size];
    for (int i = 0; i < size; i++) {
      means[i] = Math.sqrt(Math.max(0, inverse.get(i, i)));
    }
  }

  /** Weight of a reading, after Huber. */
  private double weight(double off, SeenFall fall) {
    double s = Math.hypot(sigma, fall.noiseShare());
    return 1 / (s * s * Math.max(1, Math.abs(off) / (2 * s)));
  }

  private void add(DMatrixRMaj a, DMatrixRMaj b, double t, double y, double weight) {
    double at = (t - first) / step;
    int k = Math.min(size - 2, (int) at);
    double right = at - k;
    double left = 1 - right;
    a.add(k, k, weight * left * left);
    a.add(k, k + 1, weight * left * right);
    a.add(k + 1, k, weight * left * right);
    a.add(k + 1, k + 1, weight * right * right);
    b.add(k, 0, weight * left * y);
    b.add(k + 1, 0, weight * right * y);
  }

  private void bends(DMatrixRMaj a) {
    double weight = 1 / (USUAL_BEND * USUAL_BEND);
    double[] bend = {1, -2, 1};
    for (int k = 0; k + 2 < size; k++) {
      for (int p = 0; p < 3; p++) {
        for (int q = 0; q < 3; q++) {
          a.add(k + p, k + q, weight * bend[p] * bend[q]);
        }
      }
    }
  }

  /** One step of Gauss and Newton for shift and remainder of a fall. */
  private void move(int j) {
    SeenFall fall = falls.get(j);
    StepShape shape = shape();
    double usual = USUAL_SHIFT_PERIODS * fall.periodSeconds();
    double dd = 1 / (usual * usual);
    double dr = 0;
    double rr = 1 / (USUAL_REMAINDER * USUAL_REMAINDER);
    double dy = -shifts[j] * dd;
    double ry = -remainders[j] * rr;
    for (int i = 0; i < fall.size(); i++) {
      double t = fall.seconds(i) - shifts[j];
      if (within(t)) {
        double off = share(fall, j, i, shape) - shape.at(t);
        double w = weight(off, fall);
        double byShift = -(shape.at(t + 0.5 * step) - shape.at(t - 0.5 * step)) / step;
        double byRemainder = 1 - shape.at(t);
        dd += w * byShift * byShift;
        dr += w * byShift * byRemainder;
        rr += w * byRemainder * byRemainder;
        dy += w * byShift * off;
        ry += w * byRemainder * off;
      }
    }
    double determinant = dd * rr - dr * dr;
    double shift = (rr * dy - dr * ry) / determinant;
    double most = 0.5 * step * PIECES_A_PERIOD / 4;
    shifts[j] += Math.max(-most, Math.min(most, shift));
    remainders[j] +=
        Math.max(
            -MOST_REMAINDER_STEP, Math.min(MOST_REMAINDER_STEP, (dd * ry - dr * dy) / determinant));
  }

  private double spread() {
    StepShape shape = shape();
    double[] off = new double[falls.stream().mapToInt(SeenFall::size).sum()];
    int n = 0;
    for (int j = 0; j < falls.size(); j++) {
      SeenFall fall = falls.get(j);
      for (int i = 0; i < fall.size(); i++) {
        double t = fall.seconds(i) - shifts[j];
        if (within(t)) {
          off[n++] = Math.abs(share(fall, j, i, shape) - shape.at(t));
        }
      }
    }
    double[] sorted = Arrays.copyOf(off, n);
    Arrays.sort(sorted);
    return n == 0
        ? sigma
        : Math.max(LEAST_SIGMA, RingSearch.SD_OF_MEDIAN_DEVIATION * sorted[n / 2]);
  }

  double sigma() {
    return sigma;
  }

  double[] shifts() {
    return shifts;
  }

  double[] remainders() {
    return remainders;
  }

  /** The chain of pieces by time since the half fall, with how far single falls lie off it. */
  StepShape result() {
    return new StepShape(first, step, shares, scatter());
  }

  private double[] scatter() {
    StepShape shape = shape();
    double[] squares = new double[size];
    double[] weights = new double[size];
    for (int j = 0; j < falls.size(); j++) {
      SeenFall fall = falls.get(j);
      for (int i = 0; i < fall.size(); i++) {
        double t = fall.seconds(i) - shifts[j];
        if (within(t)) {
          double off = share(fall, j, i, shape) - shape.at(t);
          double beyond = off * off - fall.noiseShare() * fall.noiseShare();
          spreadOver(squares, weights, (t - first) / step, beyond);
        }
      }
    }
    for (int k = 0; k < size; k++) {
      double variance = weights[k] > 0 ? Math.max(0, squares[k] / weights[k]) : sigma * sigma;
      squares[k] = Math.sqrt(variance + means[k] * means[k]);
    }
    return squares;
  }

  /** A square counts for the pieces around it, within a third of a period. */
  private void spreadOver(double[] squares, double[] weights, double at, double beyond) {
    for (int k = Math.max(0, (int) at - 2); k <= Math.min(size - 1, (int) at + 3); k++) {
      double near = 1 - Math.abs(k - at) / 4;
      if (near > 0) {
        squares[k] += near * beyond;
        weights[k] += near;
      }
    }
  }
}
