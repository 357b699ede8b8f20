package snick.force.check;

import java.util.Arrays;

/**
 * A damped oscillation over evenly spaced samples: e^(−βk)·(a·cos ωk + b·sin ωk), k the number of
 * the sample.
 *
 * @param cosine a
 * @param sine b
 * @param decay β, per sample; 0 for a tone that goes on
 * @param angle ω, rad per sample, above 0 and below π
 */
record DampedWave(double cosine, double sine, double decay, double angle) {
  private static final double HIGHEST_ANGLE = 0.97 * Math.PI;
  private static final int ANGLES_PER_SAMPLE = 2;

  /** So often halved, the step from angle to angle turns a thousand samples by less than 0.01. */
  private static final int HALVINGS = 10;

  /** e^((−β + iω)·k), from sample to sample by a product: sine and exponential cost far more. */
  private static final class Phasor {
    private final double turnReal;
    private final double turnImaginary;
    private double real = 1;
    private double imaginary;

    Phasor(double decay, double angle) {
      turnReal = Math.exp(-decay) * Math.cos(angle);
      turnImaginary = Math.exp(-decay) * Math.sin(angle);
    }

    void next() {
      double before = real;
      real = before * turnReal - imaginary * turnImaginary;
      imaginary = before * turnImaginary + imaginary * turnReal;
    }
  }

  /** Least squares for a and b. */
  static DampedWave fitted(double[] samples, double decay, double angle) {
    double cc = 0;
    double cs = 0;
    double ss = 0;
    double cy = 0;
    double sy = 0;
    Phasor turning = new Phasor(decay, angle);
    for (double sample : samples) {
      double c = turning.real;
      double s = turning.imaginary;
      cc += c * c;
      cs += c * s;
      ss += s * s;
      cy += c * sample;
      sy += s * sample;
      turning.next();
    }
    double determinant = cc * ss - cs * cs;
    return determinant > 0
        ? new DampedWave(
            (ss * cy - cs * sy) / determinant, (cc * sy - cs * cy) / determinant, decay, angle)
        : new DampedWave(0, 0, decay, angle);
  }

  /** The best of about {@code number} angles that are evenly spread below half the rate. */
  static DampedWave strongest(double[] samples, double decay, int number) {
    DampedWave best = fitted(samples, decay, HIGHEST_ANGLE);
    double least = best.squares(samples);
    for (int i = 2; i < number; i++) {
      DampedWave wave = fitted(samples, decay, HIGHEST_ANGLE * i / number);
      double squares = wave.squares(samples);
      if (squares < least) {
        best = wave;
        least = squares;
      }
    }
    return best;
  }

  /** The strongest tone that goes on through all of {@code samples}. */
  static DampedWave tone(double[] samples) {
    int angles = ANGLES_PER_SAMPLE * samples.length;
    DampedWave best = strongest(samples, 0, angles);
    double step = HIGHEST_ANGLE / angles;
    for (int i = 0; i < HALVINGS; i++) {
      step /= 2;
      DampedWave lower = fitted(samples, 0, best.angle - step);
      DampedWave higher = fitted(samples, 0, best.angle + step);
      best = better(better(best, lower, samples), higher, samples);
    }
    return best;
  }

  private static DampedWave better(DampedWave one, DampedWave other, double[] samples) {
    return other.squares(samples) < one.squares(samples) ? other : one;
  }

  double at(int k) {
    return Math.exp(-decay * k) * (cosine * Math.cos(angle * k) + sine * Math.sin(angle * k));
  }

  /** Sum of the squares of what it leaves of {@code samples}. */
  double squares(double[] samples) {
    double sum = 0;
    Phasor turning = new Phasor(decay, angle);
    for (double sample : samples) {
      double left = sample - (cosine * turning.real + sine * turning.imaginary);
      sum += left * left;
      turning.next();
    }
    return sum;
  }

  /** How much of the squares of {@code samples} goes with it. */
  double explained(double[] samples) {
    return Arrays.stream(samples).map(y -> y * y).sum() - squares(samples);
  }

  /** {@code samples} less this. */
  double[] takenFrom(double[] samples) {
    double[] left = samples.clone();
    for (int k = 0; k < left.length; k++) {
      left[k] -= at(k);
    }
    return left;
  }

  /** The same wave counted from sample {@code k}; only for a tone. */
  DampedWave countedFrom(int k) {
    double c = Math.cos(angle * k);
    double s = Math.sin(angle * k);
    return new DampedWave(cosine * c + sine * s, sine * c - cosine * s, decay, angle);
  }

  double dampingRatio() {
    return decay / Math.hypot(decay, angle);
  }
}
