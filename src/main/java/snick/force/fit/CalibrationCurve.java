package snick.force.fit;

import java.util.Arrays;

/**
 * Deflection in counts as a polynomial of force in N, with the covariance of its coefficients.
 * Immutable. Deflection is the reading above the zero before it, positive in loading direction.
 */
public final class CalibrationCurve {
  private static final int HIGHEST_DEGREE = 3;
  private static final int BISECTIONS = 200;

  private final double[] coefficients;
  private final double[][] covariance;
  private final double degreesOfFreedom;

  /**
   * Copies its arguments.
   *
   * @param coefficients lowest power first, element i in counts/Nⁱ; 2 to 4 of them
   * @param covariance square, same order, element (i, j) in counts²/Nⁱ⁺ʲ
   * @param degreesOfFreedom of the covariance, above 0; infinite if it was stated, not estimated
   * @throws IllegalArgumentException if sizes disagree, a number is not finite, or a variance is
   *     negative
   */
  public CalibrationCurve(double[] coefficients, double[][] covariance, double degreesOfFreedom) {
    if (coefficients.length < 2 || coefficients.length > HIGHEST_DEGREE + 1) {
      throw new IllegalArgumentException(
          coefficients.length + " coefficients: 2 to 4 allowed (degree 1 to 3)");
    }
    if (!(degreesOfFreedom > 0)) {
      throw new IllegalArgumentException("degrees of freedom " + degreesOfFreedom + " not above 0");
    }
    this.coefficients = coefficients.clone();
    this.covariance = copy(covariance);
    this.degreesOfFreedom = degreesOfFreedom;
    requireFinite(this.coefficients, "coefficient");
    requireCovariance();
  }

  private static double[][] copy(double[][] matrix) {
    double[][] copy = matrix.clone();
    for (int i = 0; i < copy.length; i++) {
      copy[i] = matrix[i].clone();
    }
    return copy;
  }

  private static void requireFinite(double[] values, String what) {
    for (int i = 0; i < values.length; i++) {
      if (!Double.isFinite(values[i])) {
        throw new IllegalArgumentException(what + " " + i + " is " + values[i]);
      }
    }
  }

  private void requireCovariance() {
    if (covariance.length != coefficients.length) {
      throw new IllegalArgumentException(
          "covariance has %s rows for %s coefficients"
              .formatted(covariance.length, coefficients.length));
    }
    for (int i = 0; i < covariance.length; i++) {
      if (covariance[i].length != coefficients.length) {
        throw new IllegalArgumentException("covariance row " + i + " has a wrong length");
      }
      requireFinite(covariance[i], "covariance row " + i + ", element");
      if (!(covariance[i][i] >= 0)) {
        throw new IllegalArgumentException(
            "variance " + covariance[i][i] + " of coefficient " + i + " is negative");
      }
    }
  }

  /** Coefficients, lowest power first, element i in counts/Nⁱ; a copy. */
  public double[] coefficients() {
    return coefficients.clone();
  }

  /** Covariance of the coefficients, element (i, j) in counts²/Nⁱ⁺ʲ; a copy. */
  public double[][] covariance() {
    return copy(covariance);
  }

  /** Degrees of freedom of the covariance; infinite if it was stated. */
  public double degreesOfFreedom() {
    return degreesOfFreedom;
  }

  /** Degree of the polynomial, 1 to 3. */
  public int degree() {
    return coefficients.length - 1;
  }

  /** Deflection at {@code newtons} N, in counts. */
  public double deflectionCounts(double newtons) {
    return value(coefficients, newtons);
  }

  /** Slope of the curve at {@code newtons} N, in counts/N. */
  public double slopeCountsPerNewton(double newtons) {
    return slope(coefficients, newtons);
  }

  /** A polynomial at {@code x}, its coefficients from the lowest power on (Horner's rule). */
  static double value(double[] coefficients, double x) {
    double sum = 0;
    for (int i = coefficients.length - 1; i >= 0; i--) {
      sum = sum * x + coefficients[i];
    }
    return sum;
  }

  /** Its slope there. */
  static double slope(double[] coefficients, double x) {
    double sum = 0;
    for (int i = coefficients.length - 1; i >= 1; i--) {
      sum = sum * x + i * coefficients[i];
    }
    return sum;
  }

  /**
   * Standard uncertainty, in counts, of the tangent at {@code contactNewtons} N, followed as far as
   * {@code newtons} N.
   */
  public double tangentUncertaintyCounts(double contactNewtons, double newtons) {
    double[] gradient = powers(contactNewtons);
    double distance = newtons - contactNewtons;
    double power = 1;
    for (int i = 1; i < gradient.length; i++) {
      gradient[i] += i * power * distance;
      power *= contactNewtons;
    }
    return spread(gradient);
  }

  private double[] powers(double newtons) {
    double[] powers = new double[coefficients.length];
    powers[0] = 1;
    for (int i = 1; i < powers.length; i++) {
      powers[i] = powers[i - 1] * newtons;
    }
    return powers;
  }

  /** √(gᵀ·C·g), JCGM 100:2008 equation (13); rounding below 0 counts as 0. */
  private double spread(double[] gradient) {
    double sum = 0;
    for (int i = 0; i < gradient.length; i++) {
      for (int j = 0; j < gradient.length; j++) {
        sum += gradient[i] * covariance[i][j] * gradient[j];
      }
    }
    return Math.sqrt(Math.max(0, sum));
  }

  /** Whether the curve rises all over {@code range}, so that each deflection has one force. */
  public boolean risesOver(ForceRange range) {
    double from = range.from().newtons();
    double to = range.to().newtons();
    return slopeCountsPerNewton(from) > 0
        && slopeCountsPerNewton(to) > 0
        && risesAtInflection(from, to);
  }

  /** A cubic's slope has its extreme where the curvature is 0. */
  private boolean risesAtInflection(double from, double to) {
    if (degree() < HIGHEST_DEGREE || coefficients[3] == 0) {
      return true;
    }
    double inflection = -coefficients[2] / (3 * coefficients[3]);
    return inflection <= from || inflection >= to || slopeCountsPerNewton(inflection) > 0;
  }

  /**
   * Force of a deflection, N: beyond the range along the tangent at its nearest end.
   *
   * @param deflectionCounts reading above zero, positive in loading direction, finite
   * @param range where the curve holds, and rises
   */
  public double newtons(double deflectionCounts, ForceRange range) {
    double from = range.from().newtons();
    double to = range.to().newtons();
    if (deflectionCounts < deflectionCounts(from)) {
      return alongTangent(from, deflectionCounts);
    }
    if (deflectionCounts > deflectionCounts(to)) {
      return alongTangent(to, deflectionCounts);
    }
    return Math.min(to, Math.max(from, forceNewtons(deflectionCounts, range)));
  }

  private double alongTangent(double contactNewtons, double deflectionCounts) {
    return contactNewtons
        + (deflectionCounts - deflectionCounts(contactNewtons))
            / slopeCountsPerNewton(contactNewtons);
  }

  /** Force, in N, within {@code range} at which a rising curve has this deflection; bisection. */
  double forceNewtons(double deflection, ForceRange range) {
    if (degree() == 1) {
      return (deflection - coefficients[0]) / coefficients[1];
    }
    double low = range.from().newtons();
    double high = range.to().newtons();
    for (int i = 0; i < BISECTIONS && Math.nextUp(low) < high; i++) {
      double middle = low + (high - low) / 2;
      if (deflectionCounts(middle) < deflection) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return low + (high - low) / 2;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof CalibrationCurve that
        && Arrays.equals(coefficients, that.coefficients)
        && Arrays.deepEquals(covariance, that.covariance)
        && degreesOfFreedom == that.degreesOfFreedom;
  }

  @Override
  public int hashCode() {
    return 31 * Arrays.hashCode(coefficients) + Arrays.deepHashCode(covariance);
  }

  @Override
  public String toString() {
    return "CalibrationCurve[%s, covariance %s, degrees of freedom %s]"
        .formatted(
            Arrays.toString(coefficients), Arrays.deepToString(covariance), degreesOfFreedom);
  }
}
