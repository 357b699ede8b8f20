package snick.virtualrig.bench;

import java.util.Random;
import snick.virtualrig.settings.HandSettings;

/**
 * Hand tremor as a random process within a band: sines of equal size, their frequencies spread over
 * the band by chance, their phases random (the spectral representation of Rice, 1944). Held on a
 * grid of one millisecond and read between by a straight line.
 */
final class Tremor {
  private static final int SINES = 24;
  private static final double GRID_SECONDS = 1e-3;

  private final double amplitude;
  private final double[] cosines = new double[SINES];
  private final double[] sines = new double[SINES];
  private final double[] turnCosines = new double[SINES];
  private final double[] turnSines = new double[SINES];
  private double before;
  private double after;
  private double sinceGridSeconds;

  Tremor(HandSettings hand, Random random) {
    double lowHertz = hand.tremorLowHertz();
    this.amplitude = hand.tremorGramForce() * StrictMath.sqrt(2.0 / SINES);
    double slotHertz = (hand.tremorHighHertz() - lowHertz) / SINES;
    for (int i = 0; i < SINES; i++) {
      double hertz = lowHertz + (i + random.nextDouble()) * slotHertz;
      double phase = 2 * StrictMath.PI * random.nextDouble();
      double turn = 2 * StrictMath.PI * hertz * GRID_SECONDS;
      cosines[i] = StrictMath.cos(phase);
      sines[i] = StrictMath.sin(phase);
      turnCosines[i] = StrictMath.cos(turn);
      turnSines[i] = StrictMath.sin(turn);
    }
    this.before = nextOnGrid();
    this.after = nextOnGrid();
  }

  /** Value after a further {@code stepSeconds}, in the unit of the rms. */
  double advance(double stepSeconds) {
    if (amplitude == 0) {
      return 0;
    }
    sinceGridSeconds += stepSeconds;
    while (sinceGridSeconds >= GRID_SECONDS) {
      sinceGridSeconds -= GRID_SECONDS;
      before = after;
      after = nextOnGrid();
    }
    return before + (after - before) * (sinceGridSeconds / GRID_SECONDS);
  }

  private double nextOnGrid() {
    double sum = 0;
    for (int i = 0; i < SINES; i++) {
      double cosine = cosines[i] * turnCosines[i] - sines[i] * turnSines[i];
      sines[i] = sines[i] * turnCosines[i] + cosines[i] * turnSines[i];
      cosines[i] = cosine;
      sum += cosine;
    }
    return amplitude * sum;
  }
}
