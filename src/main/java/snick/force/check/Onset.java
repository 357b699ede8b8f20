package snick.force.check;

import java.util.Optional;

/**
 * How a fall begins: a parting within a sample, a fixture as a mass on a damped spring, and a
 * filter of four boxes of a sample each follow one another. Other filters of that length begin
 * sooner.
 *
 * @param radiansPerSample damped angular frequency of the fixture
 * @param dampingRatio its damping ratio, 0 to 0.7
 */
record Onset(double radiansPerSample, double dampingRatio) {
  private static final int BOXES = 5;
  private static final int STEPS_PER_SAMPLE = 32;

  /** A swing of 600 samples; no fixture is slower. */
  private static final double LEAST_ANGLE = 0.01;

  /** The ring as sampled: a folded one looks slower, and begins later, than it is. */
  static Onset of(Optional<StepResponse.Ring> ring, double samplesPerSecond) {
    return ring.map(
            r ->
                new Onset(
                    Math.max(LEAST_ANGLE, 2 * Math.PI * r.hertz().value() / samplesPerSecond),
                    r.dampingRatio().value()))
        .orElse(new Onset(Math.PI, 0));
  }

  /** Samples after the cut until so much has fallen, of a share of the step up to a half. */
  double samplesUntil(double share) {
    double[] fallen = fallen();
    for (int box = 0; box < BOXES; box++) {
      fallen = averaged(fallen);
    }
    int i = 0;
    while (i < fallen.length && fallen[i] < share) {
      i++;
    }
    return (i + 0.5 * (BOXES + 1)) / STEPS_PER_SAMPLE;
  }

  /** What the fixture makes of a sudden fall, until it has swung half a turn. */
  private double[] fallen() {
    double ratio = dampingRatio / Math.sqrt(1 - dampingRatio * dampingRatio);
    double[] fallen = new double[(int) ((BOXES + Math.PI / radiansPerSample) * STEPS_PER_SAMPLE)];
    for (int i = 0; i < fallen.length; i++) {
      double turn = radiansPerSample * (i + 0.5) / STEPS_PER_SAMPLE;
      fallen[i] = 1 - Math.exp(-ratio * turn) * (Math.cos(turn) + ratio * Math.sin(turn));
    }
    return fallen;
  }

  private static double[] averaged(double[] values) {
    double[] means = new double[values.length];
    double sum = 0;
    for (int i = 0; i < means.length; i++) {
      sum += values[i] - (i < STEPS_PER_SAMPLE ? 0 : values[i - STEPS_PER_SAMPLE]);
      means[i] = sum / STEPS_PER_SAMPLE;
    }
    return means;
  }
}
