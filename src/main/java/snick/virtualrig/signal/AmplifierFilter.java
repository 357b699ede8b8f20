package snick.virtualrig.signal;

import java.util.Arrays;
import snick.virtualrig.settings.FilterShape;

/**
 * A converter's decimating filter: poles, then boxes in cascade, sampled once a period (Hogenauer
 * 1981, there as integrators and combs). Exact, in continuous time, for an input that is constant
 * within each fine step; a pole's output counts as constant within the next stage's step.
 */
final class AmplifierFilter {
  private final Poles poles;
  private final int stepsPerPeriod;
  private final int periods;
  private final double[] weights;
  private final double[] shares;
  private final double[] inTheMaking;
  private int next;

  AmplifierFilter(FilterShape shape, int stepsPerPeriod) {
    this.poles = new Poles(shape.poles(), shape.polePeriods() * stepsPerPeriod);
    this.stepsPerPeriod = stepsPerPeriod;
    this.periods = Math.max(1, shape.boxPeriods());
    this.weights = weights(shape, stepsPerPeriod);
    this.shares = shares(weights, stepsPerPeriod, periods);
    this.inTheMaking = new double[periods];
  }

  /**
   * Share of the boxes' kernel that falls into each fine step, newest step first; without boxes all
   * of it in the newest.
   */
  static double[] weights(FilterShape shape, int stepsPerPeriod) {
    double[] weights = new double[Math.max(1, shape.boxPeriods()) * stepsPerPeriod];
    if (shape.boxes() == 0) {
      weights[0] = 1;
      return weights;
    }
    double boxSteps = (double) shape.periodsEach() * stepsPerPeriod;
    double before = 0;
    for (int i = 0; i < weights.length; i++) {
      double after = cumulative(shape.boxes(), (i + 1) / boxSteps);
      weights[i] = after - before;
      before = after;
    }
    return weights;
  }

  /** Integral of the convolution of {@code n} unit boxes from 0 to {@code x} (Irwin–Hall). */
  private static double cumulative(int n, double x) {
    double sum = 0;
    double term = 1;
    for (int k = 0; k <= n && k < x; k++) {
      sum += term * power(x - k, n);
      term *= -(n - k) / (k + 1.0);
    }
    return sum / factorial(n);
  }

  private static double power(double base, int exponent) {
    double product = 1;
    for (int i = 0; i < exponent; i++) {
      product *= base;
    }
    return product;
  }

  private static double factorial(int n) {
    double product = 1;
    for (int i = 2; i <= n; i++) {
      product *= i;
    }
    return product;
  }

  private static double[] shares(double[] weights, int stepsPerPeriod, int periods) {
    double[] shares = new double[periods];
    for (int i = 0; i < weights.length; i++) {
      shares[i / stepsPerPeriod] += weights[i];
    }
    return shares;
  }

  /** Output at the end of a period in which the input took these means, one for each fine step. */
  double afterPeriod(double[] stepMeans) {
    double[] passed = new double[stepsPerPeriod];
    Arrays.setAll(passed, step -> poles.pass(stepMeans[step]));
    for (int ahead = 0; ahead < periods; ahead++) {
      int newest = ahead * stepsPerPeriod + stepsPerPeriod - 1;
      double sum = 0;
      for (int step = 0; step < stepsPerPeriod; step++) {
        sum += passed[step] * weights[newest - step];
      }
      inTheMaking[(next + ahead) % periods] += sum;
    }
    return take();
  }

  /** Output at the end of a period in which the input stood still. */
  double afterSteadyPeriod(double level) {
    if (!poles.settledAt(level)) {
      double[] means = new double[stepsPerPeriod];
      Arrays.fill(means, level);
      return afterPeriod(means);
    }
    for (int ahead = 0; ahead < periods; ahead++) {
      inTheMaking[(next + ahead) % periods] += level * shares[ahead];
    }
    return take();
  }

  private double take() {
    double output = inTheMaking[next];
    inTheMaking[next] = 0;
    next = (next + 1) % periods;
    return output;
  }
}
