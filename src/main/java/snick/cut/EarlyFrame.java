package snick.cut;

import java.util.Arrays;

/**
 * An orthonormal frame for what so many early readings can show of the loading: two vectors for its
 * straight part, the others for what sinusoids add to that (Gram–Schmidt with pivoting, twice).
 * What no prior makes larger than a tenth of the noise is left out.
 */
final class EarlyFrame {
  /** Of a sinusoid of unit amplitude; the strongest priors give them less than 80 noises. */
  private static final double LEAST_NORM = 1e-3;

  private final double[][] frame;
  private final double[] trendInverse;
  private final double[][] inTrend;
  private final double[][] inRest;

  /**
   * A frame.
   *
   * @param level the first member of the basis at the readings, oldest first
   * @param slope the second
   * @param sinusoids the others
   */
  EarlyFrame(double[] level, double[] slope, double[][] sinusoids) {
    double[][] vectors = new double[2 + Math.min(level.length, sinusoids.length)][];
    double levelNorm = norm(level);
    vectors[0] = scaled(level, 1 / levelNorm);
    double along = dot(vectors[0], slope);
    double[] rest = slope.clone();
    subtract(rest, vectors[0]);
    double slopeNorm = norm(rest);
    vectors[1] = scaled(rest, 1 / slopeNorm);
    trendInverse = new double[] {1 / levelNorm, -along / (levelNorm * slopeNorm), 0, 1 / slopeNorm};
    frame = Arrays.copyOf(vectors, completed(vectors, sinusoids));
    inTrend = products(0, 2, sinusoids);
    inRest = products(2, frame.length, sinusoids);
  }

  /** Appends what the sinusoids add, the largest first; how many vectors there are then. */
  private static int completed(double[][] vectors, double[][] sinusoids) {
    double[][] left = new double[sinusoids.length][];
    for (int m = 0; m < left.length; m++) {
      left[m] = sinusoids[m].clone();
      subtract(left[m], vectors[0]);
      subtract(left[m], vectors[1]);
    }
    int size = 2;
    while (size < vectors.length) {
      double[] most = largest(left).clone();
      for (int k = 0; k < size; k++) {
        subtract(most, vectors[k]);
      }
      double norm = norm(most);
      if (!(norm > LEAST_NORM)) {
        break;
      }
      vectors[size] = scaled(most, 1 / norm);
      for (double[] vector : left) {
        subtract(vector, vectors[size]);
      }
      size++;
    }
    return size;
  }

  private static double[] largest(double[][] vectors) {
    double[] largest = vectors[0];
    double most = dot(largest, largest);
    for (double[] vector : vectors) {
      double square = dot(vector, vector);
      if (square > most) {
        most = square;
        largest = vector;
      }
    }
    return largest;
  }

  private double[][] products(int from, int to, double[][] sinusoids) {
    double[][] products = new double[to - from][sinusoids.length];
    for (int i = from; i < to; i++) {
      for (int m = 0; m < sinusoids.length; m++) {
        products[i - from][m] = dot(frame[i], sinusoids[m]);
      }
    }
    return products;
  }

  /** How many vectors there are beside the two of the straight part. */
  int rank() {
    return frame.length - 2;
  }

  /** Coordinates of the readings, oldest first: the two of the straight part, then the others. */
  double[] coordinates(double[] readings) {
    double[] coordinates = new double[frame.length];
    for (int i = 0; i < coordinates.length; i++) {
      coordinates[i] = dot(frame[i], readings);
    }
    return coordinates;
  }

  /** Coordinate i of sinusoid m along the straight part, or beside it. */
  double inTrend(int i, int m) {
    return inTrend[i][m];
  }

  double inRest(int i, int m) {
    return inRest[i][m];
  }

  /** Share of coordinate j of the straight part in its coefficient i: level and slope. */
  double trendInverse(int i, int j) {
    return trendInverse[2 * i + j];
  }

  private static void subtract(double[] from, double[] unit) {
    double along = dot(from, unit);
    for (int i = 0; i < from.length; i++) {
      from[i] -= along * unit[i];
    }
  }

  private static double[] scaled(double[] vector, double factor) {
    double[] scaled = vector.clone();
    for (int i = 0; i < scaled.length; i++) {
      scaled[i] *= factor;
    }
    return scaled;
  }

  private static double norm(double[] vector) {
    return Math.sqrt(dot(vector, vector));
  }

  /** In four sums, which a processor adds side by side. */
  private static double dot(double[] a, double[] b) {
    double even = 0;
    double odd = 0;
    double third = 0;
    double fourth = 0;
    int i = 0;
    for (; i + 3 < a.length; i += 4) {
      even += a[i] * b[i];
      odd += a[i + 1] * b[i + 1];
      third += a[i + 2] * b[i + 2];
      fourth += a[i + 3] * b[i + 3];
    }
    for (; i < a.length; i++) {
      even += a[i] * b[i];
    }
    return (even + odd) + (third + fourth);
  }
}
