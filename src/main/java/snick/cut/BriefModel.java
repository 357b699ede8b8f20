package snick.cut;

import java.util.Arrays;
import java.util.function.IntConsumer;

/**
 * The samples of a loading too short for {@link RampEstimator} as a linear model: the loading line
 * begins where it crosses zero and ends at the break; level, slope and a few sinusoids between.
 */
final class BriefModel {
  private static final double LEAST_SPAN = 4;
  private static final int BEFORE_ONSET = 4;
  private static final double HIGHEST_HERTZ = 13;
  private static final double STEP_PER_SPAN = 0.65;
  private static final double NYQUIST_SHARE = 0.45;
  private static final double MARGIN = 0.6;
  private static final double AFTER_BOTTOM = 2.2;
  private static final double TREND_HEIGHTS = 10;
  private static final double UNSEEN_TREMOR_SHARE = 0.01;

  private final Samples s;
  private final double after;
  private final double noise;
  private final double height;
  private final double end;
  private final int from;
  private final int to;
  private final LoadingBasis basis;

  private BriefModel(Samples s, int onset, Fall fall, double after, double noise, double end) {
    this.s = s;
    this.after = after;
    this.noise = noise;
    this.end = end;
    this.height = Math.max(noise, s.x[s.largest(Math.max(0, fall.top() - 4), fall.top() + 1)]);
    double last =
        Math.min(end + Kernel.LONGEST_HALF + MARGIN, s.time[fall.bottom()] + AFTER_BOTTOM);
    this.from = Math.max(0, onset - BEFORE_ONSET);
    this.to = Math.min(s.size(), s.indexBefore(last) + 1);
    double span = Math.max(LEAST_SPAN, end - s.time[onset]);
    double step = STEP_PER_SPAN / span;
    double top = Math.min(HIGHEST_HERTZ / rateHertz(), NYQUIST_SHARE);
    this.basis = new LoadingBasis(end, span, step, (int) Math.max(0, Math.floor(top / step)));
  }

  static BriefModel of(Samples s, int onset, Fall fall, double after, double noise, double end) {
    return new BriefModel(s, onset, fall, after, noise, end);
  }

  private void each(IntConsumer action) {
    for (int i = from; i < to; i++) {
      if (s.usable[i]) {
        action.accept(i);
      }
    }
  }

  LoadingBasis basis() {
    return basis;
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

  /** Where to begin looking: from the moments of a triangle seen through the filter. */
  Place start(Place given) {
    double[] sums = new double[3];
    each(
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

  /** The regression for a place; samples have their deviation multiplied by {@code misfit}. */
  NormalEquations equations(Place place, double misfit) {
    NormalEquations all = new NormalEquations(basis.size());
    double[] row = new double[basis.size()];
    double[] gains = gains(place.kernel());
    each(
        i -> {
          double seen = row(place, gains, i, row);
          all.add(row, seen, misfit * noise);
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

  private double row(Place place, double[] gains, int i, double[] row) {
    double t = s.time[i];
    Kernel kernel = place.kernel();
    if (t - kernel.half() >= place.onset() && t + kernel.half() <= place.time()) {
      basis.at(t, row);
      for (int j = 0; j < row.length; j++) {
        row[j] *= gains[j];
      }
      return s.x[i];
    }
    basis.filtered(kernel, t, place.onset(), place.time(), row);
    row[basis.shift()] = (place.forceCounts() - after) * kernel.density(t - place.time());
    return s.x[i] - (t < place.time() ? 0 : after * (1 - row[0]));
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
    if (b[1] > 0) {
      double crossing = end - basis.scale() * b[0] / b[1];
      double limited = Math.max(onset - 1, Math.min(onset + 1, crossing));
      onset = Math.min(limited, time - 0.3);
    }
    return new Place(place.kernel(), time, force, onset, posterior.logEvidence());
  }

  /** Root mean square residual of the samples over the noise, not below one. */
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
    double[] gains = gains(place.kernel());
    double[] sums = new double[2];
    each(
        i -> {
          double seen = row(place, gains, i, row);
          double off = (seen - NormalEquations.dot(row, b)) / noise;
          sums[0] += off * off;
          sums[1]++;
        });
    return Math.max(1, Math.sqrt(sums[0] / Math.max(1, sums[1])) / 1.3);
  }
}
