package snick.cut;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Force at the break from the samples around it. The loading (line, wander, tremor) ends at the
 * break; a filter of the family spreads that over a few samples. For each filter and break instant
 * the loading's coefficients have a normal posterior and the samples an evidence; the filter and
 * instant of largest evidence are taken, the strengths of tremor and wander are averaged over by
 * their evidence (Bayesian linear regression, e.g. Bishop 2006 §3.3–3.5, from memory).
 */
final class BreakEstimator {
  private static final double WINDOW_NANOS = 700e6;
  private static final double LEAST_WINDOW = 24;
  private static final double HIGHEST_HERTZ = 13;
  private static final double STEP_PER_WINDOW = 0.65;
  private static final double NYQUIST_SHARE = 0.45;

  private final Samples s;
  private final double after;
  private final double noise;
  private final double rateHertz;
  private final Fall fall;
  private final BreakEstimate first;
  private final double trend;
  private final LoadingBasis basis;
  private final List<Integer> late = new ArrayList<>();
  private final NormalEquations early;
  private final int earlyCount;
  private final double start;

  private BreakEstimator(Samples s, int onset, Fall fall, double after, double noise) {
    this.s = s;
    this.after = after;
    this.noise = noise;
    this.fall = fall;
    this.rateHertz = 1e9 / s.periodNanos;
    this.first = LineEstimator.estimate(s, onset, fall, after, noise);
    double height = s.x[s.largest(Math.max(0, fall.top() - 4), fall.top() + 1)];
    this.trend = 10 * Math.abs(height);
    double tb = first.breakTime();
    double begin = s.time[onset] + 0.5 + Kernel.LONGEST_HALF;
    double window = Math.max(LEAST_WINDOW, WINDOW_NANOS / s.periodNanos);
    begin = Math.max(begin, tb - window);
    double span = Math.max(2, tb - begin);
    double step = STEP_PER_WINDOW / span;
    double top = Math.min(HIGHEST_HERTZ / rateHertz, NYQUIST_SHARE);
    this.basis = new LoadingBasis(tb, span, step, (int) Math.max(0, Math.floor(top / step)));
    this.early = new NormalEquations(basis.size());
    this.start = begin;
    this.earlyCount = gather(begin, tb);
  }

  private int gather(double begin, double tb) {
    double[] row = new double[basis.size()];
    double lateFrom = tb - Kernel.LONGEST_HALF - 0.6;
    int n = 0;
    for (int i = 0; i < s.size(); i++) {
      double time = s.time[i];
      if (!s.usable[i] || time < begin || time > tb + Kernel.LONGEST_HALF + 0.6) {
        continue;
      }
      if (time < lateFrom) {
        basis.at(time, row);
        early.add(row, s.x[i], noise);
        n++;
      } else {
        late.add(i);
      }
    }
    return n;
  }

  static BreakEstimate estimate(Samples s, int onset, Fall fall, double after, double noise) {
    return new BreakEstimator(s, onset, fall, after, noise).estimate();
  }

  /** A filter, a break instant, and how well they explain the samples. */
  private record Place(Kernel kernel, double time, double forceCounts, double logEvidence) {}

  private BreakEstimate estimate() {
    Unevenness some = new Unevenness(0.01 * trend / 10, 0.01 * trend / 10);
    double[] prior = some.variances(basis, rateHertz, trend);
    Place best = null;
    for (Kernel kernel : Kernel.FAMILY) {
      Place place = climb(new Place(kernel, first.breakTime(), trend / 10, 0), prior);
      if (best == null || place.logEvidence() > best.logEvidence()) {
        best = place;
      }
    }
    return average(best);
  }

  /** Moves the break to where the samples put it: Gauss and Newton's iteration. */
  private Place climb(Place from, double[] prior) {
    Place place = from;
    for (int turn = 0; turn < 8; turn++) {
      Optional<NormalEquations.Posterior> posterior = equations(place).posterior(prior);
      if (posterior.isEmpty()) {
        return new Place(place.kernel(), place.time(), place.forceCounts(), -1e300);
      }
      double[] b = posterior.get().coefficients();
      double move = Math.max(-0.4, Math.min(0.4, b[basis.shift()]));
      double time = place.time() + move;
      double[] form = new double[basis.size()];
      basis.at(time, form);
      double force = NormalEquations.dot(form, b);
      place = new Place(place.kernel(), time, force, posterior.get().logEvidence());
      if (Math.abs(move) < 0.002) {
        break;
      }
    }
    return place;
  }

  private NormalEquations equations(Place place) {
    double[] gains = new double[basis.size()];
    java.util.Arrays.fill(gains, 1);
    for (int m = 0; m < basis.harmonics(); m++) {
      gains[2 + 2 * m] = place.kernel().gain(basis.frequency(m));
      gains[3 + 2 * m] = gains[2 + 2 * m];
    }
    NormalEquations all = early.copyScaled(gains);
    double[] row = new double[basis.size()];
    for (int i : late) {
      basis.filtered(place.kernel(), s.time[i], Double.NEGATIVE_INFINITY, place.time(), row);
      double seen = s.x[i] - after * (1 - row[0]);
      row[basis.shift()] =
          (place.forceCounts() - after) * place.kernel().density(s.time[i] - place.time());
      all.add(row, seen, noise);
    }
    return all;
  }

  private BreakEstimate average(Place place) {
    NormalEquations equations = equations(place);
    double[] force = new double[basis.size()];
    double[] rate = new double[basis.size()];
    basis.at(place.time(), force);
    basis.slopeAt(place.time(), rate);
    Mixture mixture = new Mixture();
    for (Unevenness u : grid()) {
      equations
          .posterior(u.variances(basis, rateHertz, trend))
          .ifPresent(p -> mixture.add(p, force, rate, u, basis));
    }
    return mixture.estimate(place.time(), noise);
  }

  private List<Unevenness> grid() {
    List<Unevenness> grid = new ArrayList<>();
    double height = trend / 10;
    double most = Math.max(4 * noise, 0.06 * height);
    double least = 0.3 * noise;
    int n = 6;
    for (int i = 0; i < n; i++) {
      double tremor = least * Math.pow(most / least, i / (n - 1.0));
      for (int j = 0; j < 4; j++) {
        grid.add(new Unevenness(tremor, least * Math.pow(most / least, j / 3.0)));
      }
    }
    return grid;
  }
}
