package snick.cut.response;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;
import org.ejml.interfaces.linsol.LinearSolverDense;

/**
 * The damped oscillation that falls have in common from some time after them on: least squares for
 * frequency and decay over all, while each fall may differ a little in strength, phase and level
 * (damped sinusoids fitted as by Prony's method, but in the time domain and with covariance; coarse
 * search first, then steps of Gauss and Newton). Because falls meet the clock at all phases, an
 * alias of the frequency does not fit them all.
 */
final class RingSearch {
  /** Half of the slowest fixture thought of. */
  private static final double LOWEST_HERTZ = 12;

  /** Damping ratios that the search begins from, each about twice the one before. */
  private static final double[] RATIOS = {0.006, 0.012, 0.025, 0.05, 0.1, 0.18, 0.3, 0.45};

  /** A fit that runs beyond these damping ratios is none of a ring. */
  private static final double MOST_DAMPED = 0.6;

  private static final double LEAST_DAMPED = 0.002;

  /** How much strength and phase usually differ from fall to fall, in proportion. */
  private static final double USUAL_DIFFERENCE = 0.1;

  /** How much the level usually differs, shares. */
  private static final double USUAL_LEVEL = 0.02;

  /** Unknowns that all falls share: two amplitudes, decay, frequency. */
  private static final int GLOBAL = 4;

  /** Steps of Gauss and Newton at most, each halved at most so often. */
  private static final int STEPS = 25;

  private static final int HALVINGS = 8;

  /** Readings farther off than so many standard deviations count by their distance (Huber). */
  private static final double HUBER = 2.5;

  /** Standard deviation of normal noise, median absolute deviations (1.4826, from memory). */
  static final double SD_OF_MEDIAN_DEVIATION = 1.48;

  /** Frequencies searched are so far apart, in turns over the longest fall. */
  private static final double STRIDE_TURNS = 0.4;

  /** Highest frequency of a fit, half sampling rates. */
  private static final double HIGHEST_SHARE = 1.02;

  /** Relative steps of frequency and decay below which the fit is done. */
  private static final double DONE_FREQUENCY = 1e-5;

  private static final double DONE_DECAY = 1e-4;

  /** Least spread, shares: weights stay finite. */
  private static final double LEAST_SPREAD = 1e-5;

  private final List<SeenFall> falls;
  private final double[][] y;
  private final int[] from;
  private final double[] starts;
  private final double step;
  private final int readings;
  private double sigma;

  /** A wave e^(−βt)(a·cos ωt + b·sin ωt). */
  record Wave(double a, double b, double beta, double omega) {
    double hertz() {
      return omega / (2 * Math.PI);
    }

    double ratio() {
      return beta / Math.hypot(beta, omega);
    }

    double strength() {
      return Math.hypot(a, b);
    }
  }

  /** A wave with the covariance of decay and angular frequency. */
  record Fitted(
      Wave wave, double varBeta, double varOmega, double covariance, double sigma, double differ) {}

  /** Readings between {@code t0} and {@code t1} s after the half fall, as aligned. */
  RingSearch(List<SeenFall> falls, double[] shifts, double[] remainders, double t0, double t1) {
    this.falls = falls;
    step = falls.get(0).periodSeconds();
    y = new double[falls.size()][];
    from = new int[falls.size()];
    starts = new double[falls.size()];
    int n = 0;
    for (int j = 0; j < y.length; j++) {
      SeenFall fall = falls.get(j);
      int i = 0;
      while (i < fall.size() && fall.seconds(i) - shifts[j] < t0) {
        i++;
      }
      from[j] = i;
      int end = i;
      while (end < fall.size() && fall.seconds(end) - shifts[j] < t1) {
        end++;
      }
      y[j] = new double[end - i];
      starts[j] = i < fall.size() ? fall.seconds(i) - shifts[j] : 0;
      for (int k = 0; k < y[j].length; k++) {
        y[j][k] = fall.share(i + k) - remainders[j];
      }
      n += y[j].length;
    }
    readings = n;
  }

  /** The best wave near {@code start}; empty if the readings are too few for one. */
  Optional<Fitted> near(Wave start) {
    if (readings < 3 * GLOBAL + falls.size()) {
      return Optional.empty();
    }
    double[] own = new double[4];
    common(start.beta(), start.omega(), own);
    if (!Double.isFinite(own[3])) {
      return Optional.empty();
    }
    Wave wave = new Wave(own[0], own[1], start.beta(), start.omega());
    sigma = spread(wave, new double[GLOBAL + 3 * y.length]);
    return refined(wave);
  }

  /** The best wave of a grid of frequencies and decays; empty if nothing swings. */
  Optional<Wave> coarse() {
    if (readings < 3 * GLOBAL + falls.size()) {
      return Optional.empty();
    }
    double longest = Arrays.stream(y).mapToInt(x -> x.length).max().orElse(0) * step;
    double stride = STRIDE_TURNS / longest;
    double highest = 0.5 / step;
    Wave best = null;
    double least = Double.POSITIVE_INFINITY;
    for (double hertz = LOWEST_HERTZ; hertz < highest; hertz += stride) {
      for (double ratio : RATIOS) {
        double omega = 2 * Math.PI * hertz;
        double beta = omega * ratio / Math.sqrt(1 - ratio * ratio);
        double[] solution = new double[4];
        common(beta, omega, solution);
        if (solution[3] < least) {
          least = solution[3];
          best = new Wave(solution[0], solution[1], beta, omega);
        }
      }
    }
    return Optional.ofNullable(best);
  }

  /** Common a, b, level by least squares, and the squares left. */
  private void common(double beta, double omega, double[] out) {
    double cc = 0;
    double cs = 0;
    double ss = 0;
    double c1 = 0;
    double s1 = 0;
    double cy = 0;
    double sy = 0;
    double y1 = 0;
    double yy = 0;
    double decay = StrictMath.exp(-beta * step);
    double turnC = decay * StrictMath.cos(omega * step);
    double turnS = decay * StrictMath.sin(omega * step);
    for (int j = 0; j < y.length; j++) {
      double e = StrictMath.exp(-beta * starts[j]);
      double c = e * StrictMath.cos(omega * starts[j]);
      double s = e * StrictMath.sin(omega * starts[j]);
      for (double v : y[j]) {
        cc += c * c;
        cs += c * s;
        ss += s * s;
        c1 += c;
        s1 += s;
        cy += c * v;
        sy += s * v;
        y1 += v;
        yy += v * v;
        double next = c * turnC - s * turnS;
        s = s * turnC + c * turnS;
        c = next;
      }
    }
    double n = readings;
    double a = cc - c1 * c1 / n;
    double b = cs - c1 * s1 / n;
    double d = ss - s1 * s1 / n;
    double p = cy - c1 * y1 / n;
    double q = sy - s1 * y1 / n;
    double determinant = a * d - b * b;
    if (!(determinant > 1e-9 * a * d)) {
      out[3] = Double.POSITIVE_INFINITY;
      return;
    }
    out[0] = (d * p - b * q) / determinant;
    out[1] = (a * q - b * p) / determinant;
    out[2] = (y1 - out[0] * c1 - out[1] * s1) / n;
    out[3] = yy - y1 * y1 / n - out[0] * p - out[1] * q;
  }

  private Optional<Fitted> refined(Wave start) {
    int size = GLOBAL + 3 * y.length;
    double[] x = new double[size];
    x[0] = start.a();
    x[1] = start.b();
    x[2] = start.beta();
    x[3] = start.omega();
    DMatrixRMaj a = new DMatrixRMaj(size, size);
    DMatrixRMaj g = new DMatrixRMaj(size, 1);
    DMatrixRMaj dx = new DMatrixRMaj(size, 1);
    LinearSolverDense<DMatrixRMaj> solver = LinearSolverFactory_DDRM.chol(size);
    double prior = USUAL_DIFFERENCE * start.strength();
    for (int turn = 0; turn < STEPS; turn++) {
      double now = normal(x, prior, a, g);
      if (!solver.setA(a.copy())) {
        return Optional.empty();
      }
      solver.solve(g, dx);
      double share = 1;
      double[] next = stepped(x, dx, share);
      int halvings = 0;
      while (halvings < HALVINGS && !(allowed(next) && cost(next, prior) <= now)) {
        share /= 2;
        halvings++;
        next = stepped(x, dx, share);
      }
      if (halvings == HALVINGS) {
        break;
      }
      boolean done =
          Math.abs(next[3] - x[3]) < DONE_FREQUENCY * x[3]
              && Math.abs(next[2] - x[2]) < DONE_DECAY * x[2];
      x = next;
      prior = USUAL_DIFFERENCE * Math.hypot(x[0], x[1]);
      sigma = spread(wave(x), x);
      if (done) {
        break;
      }
    }
    normal(x, prior, a, g);
    if (!solver.setA(a.copy())) {
      return Optional.empty();
    }
    DMatrixRMaj inverse = new DMatrixRMaj(size, size);
    solver.invert(inverse);
    return Optional.of(
        new Fitted(
            wave(x),
            inverse.get(2, 2),
            inverse.get(3, 3),
            inverse.get(2, 3),
            sigma,
            differ(x, prior)));
  }

  /** How much falls differ in strength and phase, in terms of what is usual. */
  private double differ(double[] x, double prior) {
    double sum = 0;
    for (int j = 0; j < y.length; j++) {
      int l = GLOBAL + 3 * j;
      sum += square(x[l + 1]) + square(x[l + 2]);
    }
    return Math.sqrt(sum / (2 * y.length)) / prior;
  }

  private static Wave wave(double[] x) {
    return new Wave(x[0], x[1], x[2], x[3]);
  }

  private static double[] stepped(double[] x, DMatrixRMaj dx, double share) {
    double[] next = x.clone();
    for (int i = 0; i < next.length; i++) {
      next[i] += share * dx.get(i);
    }
    return next;
  }

  private boolean allowed(double[] x) {
    double ratio = x[2] / Math.hypot(x[2], x[3]);
    return x[3] > Math.PI * LOWEST_HERTZ
        && x[3] < HIGHEST_SHARE * Math.PI / step
        && ratio > LEAST_DAMPED
        && ratio < MOST_DAMPED;
  }

  private double value(double[] x, int j, int k) {
    double t = starts[j] + k * step;
    double e = StrictMath.exp(-x[2] * t);
    int l = GLOBAL + 3 * j;
    return x[l]
        + (x[0] + x[l + 1]) * e * StrictMath.cos(x[3] * t)
        + (x[1] + x[l + 2]) * e * StrictMath.sin(x[3] * t);
  }

  private double weight(double off, SeenFall fall) {
    double s = Math.hypot(sigma, fall.noiseShare());
    return 1 / (s * s * Math.max(1, Math.abs(off) / (HUBER * s)));
  }

  private double cost(double[] x, double prior) {
    double sum = 0;
    for (int j = 0; j < y.length; j++) {
      for (int k = 0; k < y[j].length; k++) {
        double s = Math.hypot(sigma, falls.get(j).noiseShare());
        double z = Math.abs(y[j][k] - value(x, j, k)) / s;
        sum += z < HUBER ? z * z : HUBER * (2 * z - HUBER);
      }
      int l = GLOBAL + 3 * j;
      sum += square(x[l] / USUAL_LEVEL) + square(x[l + 1] / prior) + square(x[l + 2] / prior);
    }
    return sum;
  }

  private static double square(double x) {
    return x * x;
  }

  private double normal(double[] x, double prior, DMatrixRMaj a, DMatrixRMaj g) {
    a.zero();
    g.zero();
    int[] at = new int[GLOBAL + 3];
    double[] d = new double[GLOBAL + 3];
    for (int j = 0; j < y.length; j++) {
      int l = GLOBAL + 3 * j;
      for (int p = 0; p < at.length; p++) {
        at[p] = p < GLOBAL ? p : l + p - GLOBAL;
      }
      for (int k = 0; k < y[j].length; k++) {
        double t = starts[j] + k * step;
        double e = StrictMath.exp(-x[2] * t);
        double c = e * StrictMath.cos(x[3] * t);
        double s = e * StrictMath.sin(x[3] * t);
        double p = x[0] + x[l + 1];
        double q = x[1] + x[l + 2];
        double value = p * c + q * s;
        double off = y[j][k] - x[l] - value;
        double w = weight(off, falls.get(j));
        d[0] = c;
        d[1] = s;
        d[2] = -t * value;
        d[3] = t * (q * c - p * s);
        d[4] = 1;
        d[5] = c;
        d[6] = s;
        for (int r = 0; r < d.length; r++) {
          g.add(at[r], 0, w * d[r] * off);
          for (int m = 0; m < d.length; m++) {
            a.add(at[r], at[m], w * d[r] * d[m]);
          }
        }
      }
      addPrior(a, g, l, x[l], USUAL_LEVEL);
      addPrior(a, g, l + 1, x[l + 1], prior);
      addPrior(a, g, l + 2, x[l + 2], prior);
    }
    return cost(x, prior);
  }

  private static void addPrior(DMatrixRMaj a, DMatrixRMaj g, int i, double x, double usual) {
    double w = 1 / (usual * usual);
    a.add(i, i, w);
    g.add(i, 0, -w * x);
  }

  /** Robust spread of what is left, floored. */
  private double spread(Wave wave, double[] locals) {
    double[] x = locals.clone();
    x[0] = wave.a();
    x[1] = wave.b();
    x[2] = wave.beta();
    x[3] = wave.omega();
    double[] off = new double[readings];
    int n = 0;
    for (int j = 0; j < y.length; j++) {
      for (int k = 0; k < y[j].length; k++) {
        off[n++] = Math.abs(y[j][k] - value(x, j, k));
      }
    }
    Arrays.sort(off);
    return Math.max(LEAST_SPREAD, SD_OF_MEDIAN_DEVIATION * off[n / 2]);
  }
}
