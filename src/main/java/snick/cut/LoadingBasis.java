package snick.cut;

import java.util.Arrays;

/**
 * The loading before the break as a sum: a level, a slope, and sinusoids at multiples of one
 * frequency, which stand for uneven speed and hand tremor. Time in periods from a reference near
 * the break.
 */
final class LoadingBasis {
  private static final double[] NODES = {
    -0.8611363115940526, -0.3399810435848563, 0.3399810435848563, 0.8611363115940526
  };
  private static final double[] WEIGHTS = {
    0.3478548451374538, 0.6521451548625461, 0.6521451548625461, 0.3478548451374538
  };

  private final double reference;
  private final double scale;
  private final double step;
  private final int harmonics;
  private final double[] moment;

  /**
   * A basis.
   *
   * @param reference time near the break, periods
   * @param scale length over which the slope is one, periods
   * @param step frequency of the first sinusoid, cycles per period
   * @param harmonics how many sinusoids
   */
  LoadingBasis(double reference, double scale, double step, int harmonics) {
    this.reference = reference;
    this.scale = scale;
    this.step = step;
    this.harmonics = harmonics;
    this.moment = new double[size()];
  }

  /** Level, slope, sinusoids, and last the shift of the break. */
  int size() {
    return 3 + 2 * harmonics;
  }

  /** Index of the coefficient that shifts the break. */
  int shift() {
    return 2 + 2 * harmonics;
  }

  int harmonics() {
    return harmonics;
  }

  /** Frequency of sinusoid m ≥ 0, cycles per period. */
  double frequency(int m) {
    return (m + 1) * step;
  }

  /** Length over which the second coefficient is the rise, periods. */
  double scale() {
    return scale;
  }

  /** Values of all members at an instant. */
  void at(double time, double[] row) {
    row[0] = 1;
    row[1] = (time - reference) / scale;
    double angle = 2 * Math.PI * step * (time - reference);
    double c = Math.cos(angle);
    double s = Math.sin(angle);
    double cosine = c;
    double sine = s;
    for (int m = 0; m < harmonics; m++) {
      row[2 + 2 * m] = cosine;
      row[3 + 2 * m] = sine;
      double next = cosine * c - sine * s;
      sine = sine * c + cosine * s;
      cosine = next;
    }
    row[shift()] = 0;
  }

  /** Time derivatives of all members at an instant, per period. */
  void slopeAt(double time, double[] row) {
    at(time, row);
    row[0] = 0;
    row[1] = 1 / scale;
    for (int m = 0; m < harmonics; m++) {
      double omega = 2 * Math.PI * frequency(m);
      double cosine = row[2 + 2 * m];
      row[2 + 2 * m] = -omega * row[3 + 2 * m];
      row[3 + 2 * m] = omega * cosine;
    }
  }

  /**
   * The members as a filter shows them at an instant, with nothing before {@code lo} or after
   * {@code hi}.
   */
  void filtered(Kernel kernel, double time, double lo, double hi, double[] row) {
    Arrays.fill(row, 0);
    int pieces = kernel.order();
    for (int piece = 0; piece < pieces; piece++) {
      double left = time - kernel.half() + piece * kernel.width();
      double from = Math.max(lo, left);
      double to = Math.min(hi, left + kernel.width());
      if (to > from) {
        addPiece(kernel, time, from, to, row);
      }
    }
  }

  private void addPiece(Kernel kernel, double time, double from, double to, double[] row) {
    int parts = (int) Math.ceil((to - from) / 1.0001);
    double half = 0.5 * (to - from) / parts;
    for (int part = 0; part < parts; part++) {
      double centre = from + (2 * part + 1) * half;
      for (int k = 0; k < NODES.length; k++) {
        double at = centre + half * NODES[k];
        double weight = half * WEIGHTS[k] * kernel.density(time - at);
        at(at, moment);
        for (int j = 0; j < row.length; j++) {
          row[j] += weight * moment[j];
        }
      }
    }
  }
}
