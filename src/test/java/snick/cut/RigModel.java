package snick.cut;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import snick.sample.SampleSink;

/**
 * A load cell, amplifier and converter in numbers: the force is sampled 64 times an output period,
 * run through cascaded moving averages and decimated at a random phase. It shares nothing with the
 * detector.
 */
final class RigModel {
  static final int OVERSAMPLING = 64;
  static final double COUNTS_PER_GF = 437.25;
  private static final int OFFSET_COUNTS = 81_234;

  /** Linear-phase filters that span four output periods. */
  enum Filter {
    /** One moving average over four periods. */
    BOX4(1, 4),
    /** Four cascaded moving averages of one period. */
    SINC4(4, 1),
    /** Three cascaded moving averages of one period. */
    SINC3(3, 1),
    /** One moving average over one period. */
    SINC1(1, 1);

    final int stages;
    final int periods;

    Filter(int stages, int periods) {
      this.stages = stages;
      this.periods = periods;
    }
  }

  final double rateHertz;
  final Filter filter;
  final double noiseGf;
  final Random random;
  double countsPerGf = COUNTS_PER_GF;

  RigModel(double rateHertz, Filter filter, double noiseGf, long seed) {
    this.rateHertz = rateHertz;
    this.filter = filter;
    this.noiseGf = noiseGf;
    this.random = new Random(seed);
  }

  /** Readings in gf, noise included, from 0 s on: sample i at i/rate, group delay not removed. */
  double[] readings(DoubleUnaryOperator force, double seconds) {
    double[] out = noiseless(force, seconds, random.nextDouble());
    for (int i = 0; i < out.length; i++) {
      out[i] += noiseGf * random.nextGaussian();
    }
    return out;
  }

  /** The same without noise; the first conversion ends {@code phase} of a period after 0 s. */
  double[] noiseless(DoubleUnaryOperator force, double seconds, double phase) {
    double fine = 1 / (rateHertz * OVERSAMPLING);
    int lead = 5 * OVERSAMPLING;
    int n = (int) (seconds * rateHertz);
    double[] x = new double[lead + n * OVERSAMPLING];
    for (int i = 0; i < x.length; i++) {
      x[i] = force.applyAsDouble((i - lead + 0.5) * fine + phase / rateHertz);
    }
    for (int stage = 0; stage < filter.stages; stage++) {
      average(x, filter.periods * OVERSAMPLING);
    }
    double[] out = new double[n];
    for (int i = 0; i < n; i++) {
      out[i] = x[lead + i * OVERSAMPLING];
    }
    return out;
  }

  private static void average(double[] x, int width) {
    double[] in = x.clone();
    double sum = 0;
    for (int i = 0; i < x.length; i++) {
      sum += in[i] - (i >= width ? in[i - width] : 0);
      x[i] = sum / width;
    }
  }

  int counts(double gf) {
    return (int) Math.rint(OFFSET_COUNTS + gf * countsPerGf);
  }

  long nanos(int i) {
    return Math.round(i * 1e9 / rateHertz);
  }

  /** Feeds these readings, in gf, to a sink. */
  void feed(double[] readings, SampleSink sink) {
    for (int i = 0; i < readings.length; i++) {
      sink.sample(nanos(i), counts(readings[i]));
    }
  }
}
