package snick.force.check;

import java.util.Arrays;
import java.util.Comparator;
import java.util.Optional;
import java.util.stream.IntStream;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;

/**
 * A damped oscillation fitted to evenly spaced samples about rest: y = e^(−βk)·(a·cos ωk + b·sin
 * ωk), k the number of the sample. Coarse search over β and ω, a and b by least squares; then
 * Gauss-Newton steps on all four. Covariance from the last step's matrix, as of any least-squares
 * fit. What does not die away within the samples is no ring but hum, and the same search in the
 * rest before the fall says how much hum and noise alone would yield.
 */
final class RingFit {
  private static final int FEWEST = 8;
  private static final int MOST = 400;
  private static final int FREQUENCIES = 100;
  private static final int DECAYS = 8;
  private static final double TIME_CONSTANTS = 3;
  private static final double FASTEST_DECAY = 0.8;
  private static final int STEPS = 40;
  private static final int HALVINGS = 12;
  private static final double CLEAR = 50;
  private static final double BEYOND_REST = 3;

  /** Ring and hum, each fitted to what the other leaves, come so often to their own. */
  private static final int ROUNDS = 6;

  private static final double MOST_DAMPED = 0.7;

  private final double[] samples;
  private final double slowestDecay;

  private RingFit(double[] samples) {
    this.samples = samples;
    this.slowestDecay = TIME_CONSTANTS / samples.length;
  }

  /**
   * The oscillation in {@code samples}; empty if noise and hum hide it: it must explain more of the
   * squares than 50 times the noise's variance and 3 times what the rest yields.
   *
   * @param rest samples at rest before the fall
   * @param noise standard deviation of one sample, above 0, in the unit of the samples
   * @param samplesPerSecond rate
   */
  static Optional<StepResponse.Ring> of(
      double[] samples, double[] rest, double noise, double samplesPerSecond) {
    return of(samples, rest, noise, samplesPerSecond, MOST);
  }

  /** The same from at most so many samples: the longer, the weaker a damping is told apart. */
  static Optional<StepResponse.Ring> of(
      double[] samples, double[] rest, double noise, double samplesPerSecond, int most) {
    int used = Math.min(most, Math.min(samples.length, rest.length));
    if (used < FEWEST) {
      return Optional.empty();
    }
    double[] still = Arrays.copyOf(rest, used);
    double[] ringing = Arrays.copyOf(samples, used);
    DampedWave hum = DampedWave.tone(still);
    if (hum.explained(still) > CLEAR * noise * noise) {
      still = hum.takenFrom(still);
      ringing = withoutHum(ringing, hum.angle());
    }
    RingFit background = new RingFit(still);
    double least =
        CLEAR * noise * noise + BEYOND_REST * background.coarse().explained(background.samples);
    return new RingFit(ringing).ring(least, samplesPerSecond);
  }

  /** Without hum of that angle, at first as the second half shows it, where the ring has died. */
  private static double[] withoutHum(double[] samples, double angle) {
    int half = samples.length / 2;
    double[] late = Arrays.copyOfRange(samples, half, samples.length);
    double[] ringing = DampedWave.fitted(late, 0, angle).countedFrom(-half).takenFrom(samples);
    DampedWave ring = new RingFit(ringing).coarse();
    for (int i = 0; i < ROUNDS; i++) {
      ring = new RingFit(ringing).refined(ring);
      ringing = DampedWave.fitted(ring.takenFrom(samples), 0, angle).takenFrom(samples);
    }
    return ringing;
  }

  private Optional<StepResponse.Ring> ring(double leastExplained, double samplesPerSecond) {
    DampedWave wave = refined(coarse());
    if (!(wave.explained(samples) > leastExplained) || wave.dampingRatio() > MOST_DAMPED) {
      return Optional.empty();
    }
    DMatrixRMaj covariance = normal(wave);
    if (!CommonOps_DDRM.invert(covariance)) {
      return Optional.empty();
    }
    CommonOps_DDRM.scale(wave.squares(samples) / (samples.length - 4), covariance);
    double perAngle = samplesPerSecond / (2 * Math.PI);
    return Optional.of(
        new StepResponse.Ring(
            new Estimated(wave.angle() * perAngle, Math.sqrt(covariance.get(3, 3)) * perAngle),
            new Estimated(wave.dampingRatio(), ofDamping(wave, covariance))));
  }

  private static double ofDamping(DampedWave wave, DMatrixRMaj covariance) {
    double cube = Math.pow(Math.hypot(wave.decay(), wave.angle()), 3);
    double byDecay = wave.angle() * wave.angle() / cube;
    double byAngle = -wave.decay() * wave.angle() / cube;
    double variance =
        byDecay * byDecay * covariance.get(2, 2)
            + 2 * byDecay * byAngle * covariance.get(2, 3)
            + byAngle * byAngle * covariance.get(3, 3);
    return Math.sqrt(Math.max(0, variance));
  }

  private DampedWave coarse() {
    double ratio = Math.pow(FASTEST_DECAY / slowestDecay, 1.0 / (DECAYS - 1));
    return IntStream.range(0, DECAYS)
        .mapToObj(d -> slowestDecay * Math.pow(ratio, d))
        .map(decay -> DampedWave.strongest(samples, decay, FREQUENCIES))
        .min(Comparator.comparingDouble(wave -> wave.squares(samples)))
        .orElseThrow();
  }

  private DampedWave refined(DampedWave start) {
    DampedWave wave = start;
    for (int i = 0; i < STEPS; i++) {
      Optional<DampedWave> better = better(wave);
      if (better.isEmpty()) {
        return wave;
      }
      wave = better.get();
    }
    return wave;
  }

  /** One step downhill, halved until it helps. */
  private Optional<DampedWave> better(DampedWave wave) {
    DMatrixRMaj step = new DMatrixRMaj(4, 1);
    if (!CommonOps_DDRM.solve(normal(wave), gradient(wave), step)) {
      return Optional.empty();
    }
    double now = wave.squares(samples);
    double share = 1;
    for (int i = 0; i < HALVINGS; i++) {
      DampedWave next = stepped(wave, step, share);
      if (allowed(next) && next.squares(samples) < now) {
        return Optional.of(next);
      }
      share /= 2;
    }
    return Optional.empty();
  }

  private static DampedWave stepped(DampedWave from, DMatrixRMaj step, double share) {
    return new DampedWave(
        from.cosine() + share * step.get(0),
        from.sine() + share * step.get(1),
        from.decay() + share * step.get(2),
        from.angle() + share * step.get(3));
  }

  private boolean allowed(DampedWave wave) {
    return wave.decay() >= slowestDecay && wave.angle() > 0 && wave.angle() < Math.PI;
  }

  private static double[] derivatives(DampedWave wave, int k) {
    double left = Math.exp(-wave.decay() * k);
    double c = left * Math.cos(wave.angle() * k);
    double s = left * Math.sin(wave.angle() * k);
    double value = wave.cosine() * c + wave.sine() * s;
    return new double[] {c, s, -k * value, k * (wave.sine() * c - wave.cosine() * s)};
  }

  private DMatrixRMaj normal(DampedWave wave) {
    DMatrixRMaj matrix = new DMatrixRMaj(4, 4);
    for (int k = 0; k < samples.length; k++) {
      double[] d = derivatives(wave, k);
      for (int row = 0; row < 4; row++) {
        for (int column = 0; column < 4; column++) {
          matrix.add(row, column, d[row] * d[column]);
        }
      }
    }
    return matrix;
  }

  private DMatrixRMaj gradient(DampedWave wave) {
    DMatrixRMaj vector = new DMatrixRMaj(4, 1);
    for (int k = 0; k < samples.length; k++) {
      double[] d = derivatives(wave, k);
      double left = samples[k] - wave.at(k);
      for (int row = 0; row < 4; row++) {
        vector.add(row, 0, d[row] * left);
      }
    }
    return vector;
  }
}
