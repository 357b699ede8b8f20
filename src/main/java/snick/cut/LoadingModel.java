package snick.cut;

import java.util.Arrays;
import java.util.function.IntConsumer;

/**
 * The samples of one loading as a linear model: early samples, which no filter of the family lets
 * touch the break, and late ones. If there are few early samples the ramp is short: then the
 * samples around its onset are used too, and the onset is where the loading line crosses zero.
 */
final class LoadingModel {
  private static final double WINDOW_NANOS = 700e6;
  private static final double LEAST_WINDOW = 24;
  private static final double HIGHEST_HERTZ = 13;
  private static final double STEP_PER_WINDOW = 0.65;
  private static final double NYQUIST_SHARE = 0.45;
  private static final double MARGIN = 0.6;
  private static final double AFTER_BOTTOM = 2.2;
  private static final double FEW_EARLY = 10;
  private static final double TREND_HEIGHTS = 10;
  private static final double UNSEEN_TREMOR_SHARE = 0.01;

  private final Samples s;
  private final double after;
  private final double noise;
  private final double ringing;
  private final double height;
  private final double lateFrom;
  private final double lateTo;
  private final double end;
  private final boolean brief;
  private final int from;
  private final LoadingBasis basis;
  private final NormalEquations early;

  private LoadingModel(Samples s, int onset, Fall fall, double after, double noise, double end) {
    this.s = s;
    this.after = after;
    this.noise = noise;
    this.end = end;
    this.height = Math.max(noise, s.x[s.largest(Math.max(0, fall.top() - 4), fall.top() + 1)]);
    this.ringing = s.ringing(end + Kernel.LONGEST_HALF, after, noise);
    double rate = rateHertz();
    double window = Math.max(LEAST_WINDOW, WINDOW_NANOS / s.periodNanos);
    double clean = s.time[onset] + 0.5 + Kernel.LONGEST_HALF;
    double begin = Math.max(clean, end - window);
    this.lateTo =
        Math.min(end + Kernel.LONGEST_HALF + MARGIN, s.time[fall.bottom()] + AFTER_BOTTOM);
    this.brief = end - Kernel.LONGEST_HALF - MARGIN - begin < FEW_EARLY;
    this.from = brief ? Math.max(0, onset - 4) : firstFrom(begin);
    this.lateFrom = brief ? Double.NEGATIVE_INFINITY : end - Kernel.LONGEST_HALF - MARGIN;
    double span = Math.max(4, end - (brief ? s.time[onset] : begin));
    double step = STEP_PER_WINDOW / span;
    double top = Math.min(HIGHEST_HERTZ / rate, NYQUIST_SHARE);
    this.basis = new LoadingBasis(end, span, step, (int) Math.max(0, Math.floor(top / step)));
    this.early = new NormalEquations(basis.size());
    gatherEarly();
  }

  static LoadingModel of(Samples s, int onset, Fall fall, double after, double noise, double end) {
    return new LoadingModel(s, onset, fall, after, noise, end);
  }

  private int firstFrom(double time) {
    int i = 0;
    while (i < s.size() && s.time[i] < time) {
      i++;
    }
    return i;
  }

  private void gatherEarly() {
    double[] row = new double[basis.size()];
    for (int i = from; i < s.size() && s.time[i] < lateFrom; i++) {
      if (s.usable[i]) {
        basis.at(s.time[i], row);
        early.add(row, s.x[i], noise);
      }
    }
  }

  private void eachLate(IntConsumer action) {
    for (int i = from; i < s.size() && s.time[i] <= lateTo; i++) {
      if (s.usable[i] && s.time[i] >= lateFrom) {
        action.accept(i);
      }
    }
  }

  LoadingBasis basis() {
    return basis;
  }

  /** Whether the ramp is so short that its onset matters. */
  boolean brief() {
    return brief;
  }

  double noise() {
    return noise;
  }

  double height() {
    return height;
  }

  private double rateHertz() {
    return 1e9 / s.periodNanos;
  }

  double[] priorVariances(Unevenness unevenness) {
    return unevenness.variances(basis, rateHertz(), noise, TREND_HEIGHTS * height);
  }

  /** Tremor of which this rate shows nothing: allowed for, since it cannot be measured, counts. */
  double unseenTremorCounts() {
    double seen = Math.min(1, Math.max(0, (NYQUIST_SHARE * rateHertz() - 4) / 8));
    return UNSEEN_TREMOR_SHARE * height * Math.sqrt(1 - seen);
  }

  /**
   * Where to begin looking; for a short ramp from the moments of a triangle seen through the
   * filter.
   */
  Place start(Place given) {
    if (!brief) {
      return new Place(given.kernel(), end, height, Double.NEGATIVE_INFINITY, 0);
    }
    double[] sums = new double[3];
    eachLate(
        i -> {
          double t = s.time[i] - end;
          double x = s.x[i];
          sums[0] += x;
          sums[1] += x * t;
          sums[2] += x * t * t;
        });
    double area = Math.max(sums[0], noise);
    double centre = sums[1] / area;
    double spread = sums[2] / area - centre * centre - given.kernel().variance();
    double length = Math.sqrt(18 * Math.max(0.03, spread));
    double time = end + Math.max(-3, Math.min(3, centre + length / 3));
    return new Place(given.kernel(), time, 2 * area / length, time - length, 0);
  }

  /** The regression for a place; late samples have their deviation multiplied by {@code misfit}. */
  NormalEquations equations(Place place, double misfit) {
    NormalEquations all = early.copyScaled(gains(place.kernel()));
    double[] row = new double[basis.size()];
    eachLate(
        i -> {
          double seen = lateRow(place, i, row);
          all.add(row, seen, misfit * deviation(row[0]));
        });
    return all;
  }

  private double[] gains(Kernel kernel) {
    double[] gains = new double[basis.size()];
    Arrays.fill(gains, 1);
    for (int m = 0; m < basis.harmonics(); m++) {
      gains[2 + 2 * m] = kernel.gain(basis.frequency(m));
      gains[3 + 2 * m] = gains[2 + 2 * m];
    }
    return gains;
  }

  private double lateRow(Place place, int i, double[] row) {
    double t = s.time[i];
    Kernel kernel = place.kernel();
    basis.filtered(kernel, t, place.onset(), place.time(), row);
    row[basis.shift()] = (place.forceCounts() - after) * kernel.density(t - place.time());
    return s.x[i] - (t < place.time() ? 0 : after * (1 - row[0]));
  }

  private double deviation(double share) {
    double ring = ringing * 4 * Math.max(0, Math.min(1, 1 - share));
    return Math.sqrt(noise * noise + (brief ? 0 : ring));
  }

  /** The place to which a posterior moves the break, and the onset of a short ramp. */
  Place moved(Place place, NormalEquations.Posterior posterior, double largest) {
    double[] b = posterior.coefficients();
    double shift = b[basis.shift()];
    double time = place.time() + Math.max(-largest, Math.min(largest, shift));
    double[] form = new double[basis.size()];
    basis.at(time, form);
    double force = NormalEquations.dot(form, b);
    double onset = place.onset();
    if (brief && b[1] > 0) {
      double crossing = end - basis.scale() * b[0] / b[1];
      double limited = Math.max(onset - 1, Math.min(onset + 1, crossing));
      onset = Math.min(limited, time - 0.3);
    }
    return new Place(place.kernel(), time, force, onset, posterior.logEvidence());
  }

  /** Root mean square residual of the late samples over their deviation, not below one. */
  double misfit(Place place) {
    double[] prior =
        priorVariances(new Unevenness(0.02 * height / noise, 0.02 * height / noise, 0));
    return equations(place, 1)
        .posterior(prior)
        .map(p -> misfit(place, p.coefficients()))
        .orElse(1.0);
  }

  private double misfit(Place place, double[] b) {
    double[] row = new double[basis.size()];
    double[] sums = new double[2];
    eachLate(
        i -> {
          double seen = lateRow(place, i, row);
          double off = (seen - NormalEquations.dot(row, b)) / deviation(row[0]);
          sums[0] += off * off;
          sums[1]++;
        });
    return Math.max(1, Math.sqrt(sums[0] / Math.max(1, sums[1])) / 1.3);
  }
}
