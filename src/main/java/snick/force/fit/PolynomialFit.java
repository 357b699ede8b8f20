package snick.force.fit;

import java.util.Arrays;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.ejml.dense.row.factory.DecompositionFactory_DDRM;
import org.ejml.interfaces.decomposition.QRDecomposition;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/**
 * Weighted least squares of a polynomial by Householder QR (Golub and Van Loan, Matrix
 * Computations, 5.2), columns scaled to order 1. Immutable.
 *
 * <p>Standard errors are scaled by the residual standard deviation: weights count relative to one
 * another only.
 */
public final class PolynomialFit {
  private static final int HIGHEST_DEGREE = 3;
  private static final double SINGULAR = 1e-12;

  /**
   * What is fitted.
   *
   * @param degree 1 to 3
   * @param throughOrigin whether the constant is held at 0
   */
  public record Form(int degree, boolean throughOrigin) {
    public Form {
      if (degree < 1 || degree > HIGHEST_DEGREE) {
        throw new IllegalArgumentException("degree " + degree + " is outside 1 to 3");
      }
    }

    int lowestPower() {
      return throughOrigin ? 1 : 0;
    }

    public int parameters() {
      return degree + 1 - lowestPower();
    }
  }

  private final Form form;
  private final double[] x;
  private final double[] y;
  private final double[] weights;
  private final double[] coefficients;
  private final double[][] unscaledCovariance;
  private final double residualSumOfSquares;

  private PolynomialFit(
      Form form, double[] x, double[] y, double[] weights, double scale, DMatrixRMaj[] solved) {
    this.form = form;
    this.x = x;
    this.y = y;
    this.weights = weights;
    this.coefficients = new double[form.degree() + 1];
    this.unscaledCovariance = new double[form.degree() + 1][form.degree() + 1];
    unscale(scale, solved[0], solved[1]);
    this.residualSumOfSquares = weightedSquares(this::residual);
  }

  /** Fit with equal weights; see {@link #weighted}. */
  public static PolynomialFit of(double[] x, double[] y, Form form) {
    double[] equal = new double[x.length];
    Arrays.fill(equal, 1);
    return weighted(x, y, equal, form);
  }

  /**
   * Fit.
   *
   * @param x abscissae, finite
   * @param y ordinates, finite
   * @param weights above 0, in proportion to 1/variance
   * @throws IllegalArgumentException if there are too few points or too few distinct abscissae, or
   *     a number is not finite or a weight not above 0
   */
  public static PolynomialFit weighted(double[] x, double[] y, double[] weights, Form form) {
    requirePoints(x, y, weights, form);
    double scale = Arrays.stream(x).map(Math::abs).max().orElse(1);
    int n = x.length;
    int p = form.parameters();
    DMatrixRMaj design = new DMatrixRMaj(n, p);
    DMatrixRMaj right = new DMatrixRMaj(n, 1);
    for (int i = 0; i < n; i++) {
      double root = Math.sqrt(weights[i]);
      for (int j = 0; j < p; j++) {
        design.set(i, j, root * Math.pow(x[i] / scale, j + form.lowestPower()));
      }
      right.set(i, 0, root * y[i]);
    }
    return new PolynomialFit(
        form, x.clone(), y.clone(), weights.clone(), scale, solve(design, right));
  }

  private static void requirePoints(double[] x, double[] y, double[] weights, Form form) {
    if (x.length != y.length || x.length != weights.length) {
      throw new IllegalArgumentException(
          x.length + " loads, " + y.length + " readings and " + weights.length + " weights");
    }
    for (int i = 0; i < x.length; i++) {
      if (!Double.isFinite(x[i]) || !Double.isFinite(y[i])) {
        throw new IllegalArgumentException(
            "point %s: load %s, reading %s: finite numbers needed".formatted(i + 1, x[i], y[i]));
      }
      if (!(weights[i] > 0 && Double.isFinite(weights[i]))) {
        throw new IllegalArgumentException(
            "point " + (i + 1) + ": weight " + weights[i] + " is not above 0 and finite");
      }
    }
    int parameters = form.parameters();
    long distinct =
        Arrays.stream(x).filter(v -> !form.throughOrigin() || v != 0).distinct().count();
    if (distinct < parameters) {
      throw new NotAccepted(
          "refused.loads_for_degree", "n", distinct, "degree", form.degree(), "least", parameters);
    }
    if (x.length <= parameters) {
      throw new NotAccepted(
          Phrase.of("refused.points_for_degree")
              .with("n", x.length)
              .with("degree", form.degree())
              .with("least", parameters + 1));
    }
  }

  /** Scaled coefficients, and (XᵀWX)⁻¹ of the scaled design as R⁻¹R⁻ᵀ. */
  private static DMatrixRMaj[] solve(DMatrixRMaj design, DMatrixRMaj right) {
    int p = design.numCols;
    QRDecomposition<DMatrixRMaj> qr = DecompositionFactory_DDRM.qr(design.numRows, p);
    qr.decompose(design.copy());
    DMatrixRMaj r = qr.getR(null, true);
    requireRank(r);
    DMatrixRMaj projected = new DMatrixRMaj(p, 1);
    CommonOps_DDRM.multTransA(qr.getQ(null, true), right, projected);
    DMatrixRMaj inverse = new DMatrixRMaj(p, p);
    CommonOps_DDRM.invert(r, inverse);
    DMatrixRMaj solution = new DMatrixRMaj(p, 1);
    CommonOps_DDRM.mult(inverse, projected, solution);
    DMatrixRMaj covariance = new DMatrixRMaj(p, p);
    CommonOps_DDRM.multTransB(inverse, inverse, covariance);
    return new DMatrixRMaj[] {solution, covariance};
  }

  private static void requireRank(DMatrixRMaj r) {
    double largest = 0;
    double smallest = Double.POSITIVE_INFINITY;
    for (int i = 0; i < r.numCols; i++) {
      largest = Math.max(largest, Math.abs(r.get(i, i)));
      smallest = Math.min(smallest, Math.abs(r.get(i, i)));
    }
    if (!(smallest > SINGULAR * largest)) {
      throw new NotAccepted("refused.loads_too_close");
    }
  }

  private void unscale(double scale, DMatrixRMaj solution, DMatrixRMaj covariance) {
    int low = form.lowestPower();
    for (int i = 0; i < form.parameters(); i++) {
      coefficients[i + low] = solution.get(i, 0) / Math.pow(scale, i + low);
      for (int j = 0; j < form.parameters(); j++) {
        unscaledCovariance[i + low][j + low] =
            covariance.get(i, j) / Math.pow(scale, i + j + 2 * low);
      }
    }
  }

  /** A value for each point. */
  @FunctionalInterface
  private interface PerPoint {
    double at(int i);
  }

  private double weightedSquares(PerPoint value) {
    double sum = 0;
    for (int i = 0; i < x.length; i++) {
      double v = value.at(i);
      sum += weights[i] * v * v;
    }
    return sum;
  }

  private double residual(int i) {
    return y[i] - predict(x[i]);
  }

  /** What was fitted. */
  public Form form() {
    return form;
  }

  /** Abscissae; a copy. */
  public double[] loads() {
    return x.clone();
  }

  /** Ordinates; a copy. */
  public double[] readings() {
    return y.clone();
  }

  /** Weight of point {@code i}. */
  double weight(int i) {
    return weights[i];
  }

  /** Coefficients, lowest power first; the constant is 0 through the origin; a copy. */
  public double[] coefficients() {
    return coefficients.clone();
  }

  /** Covariance of the coefficients, same order; row and column 0 are 0 through the origin. */
  public double[][] covariance() {
    double variance = residualSd() * residualSd();
    double[][] scaled = new double[coefficients.length][coefficients.length];
    for (int i = 0; i < scaled.length; i++) {
      for (int j = 0; j < scaled.length; j++) {
        scaled[i][j] = variance * unscaledCovariance[i][j];
      }
    }
    return scaled;
  }

  /** Standard errors of the coefficients, same order. */
  public double[] standardErrors() {
    double[] errors = new double[coefficients.length];
    for (int i = 0; i < errors.length; i++) {
      errors[i] = residualSd() * Math.sqrt(unscaledCovariance[i][i]);
    }
    return errors;
  }

  /** Number of points less number of fitted coefficients. */
  public int degreesOfFreedom() {
    return x.length - form.parameters();
  }

  /** Weighted sum of squared residuals. */
  public double residualSumOfSquares() {
    return residualSumOfSquares;
  }

  /** Residual standard deviation √(SSE/ν). */
  public double residualSd() {
    return Math.sqrt(residualSumOfSquares / degreesOfFreedom());
  }

  /**
   * 1 − SSE/SST; SST about the mean, or about 0 through the origin (uncentred). Says nothing about
   * linearity.
   */
  public double rSquared() {
    return 1 - residualSumOfSquares / totalSumOfSquares();
  }

  /** Weighted total sum of squares, about the mean, or about 0 through the origin. */
  public double totalSumOfSquares() {
    double centre = form.throughOrigin() ? 0 : weightedMeanReading();
    return weightedSquares(i -> y[i] - centre);
  }

  private double weightedMeanReading() {
    double sum = 0;
    double sumOfWeights = 0;
    for (int i = 0; i < y.length; i++) {
      sum += weights[i] * y[i];
      sumOfWeights += weights[i];
    }
    return sum / sumOfWeights;
  }

  /** Fitted reading at {@code load}. */
  public double predict(double load) {
    return CalibrationCurve.value(coefficients, load);
  }

  /** Slope of the fitted polynomial at {@code load}. */
  public double slope(double load) {
    return CalibrationCurve.slope(coefficients, load);
  }

  /** Whether the curve rises, or falls, from the smallest to the largest load without turning. */
  public boolean isMonotonic() {
    double low = Arrays.stream(x).min().orElse(0);
    double high = Arrays.stream(x).max().orElse(0);
    double sign = Math.signum(predict(high) - predict(low));
    boolean ends = sign * slope(low) > 0 && sign * slope(high) > 0;
    return ends && (form.degree() < HIGHEST_DEGREE || sign * slope(flattest(low, high)) > 0);
  }

  /** Load from {@code low} to {@code high} at which a cubic's slope has its extreme value. */
  private double flattest(double low, double high) {
    double vertex = -coefficients[2] / (3 * coefficients[HIGHEST_DEGREE]);
    return vertex >= low && vertex <= high ? vertex : low;
  }

  /** Reading less fitted reading, in the order of the points. */
  public double[] residuals() {
    double[] residuals = new double[x.length];
    Arrays.setAll(residuals, this::residual);
    return residuals;
  }

  /**
   * The same curve over loads given in another unit.
   *
   * @param newtonsPerUnit N in one unit of this fit's loads, above 0
   */
  public CalibrationCurve overForce(double newtonsPerUnit) {
    return overForce(newtonsPerUnit, residualSd(), degreesOfFreedom());
  }

  /** The same, the covariance scaled by another standard deviation of the readings. */
  public CalibrationCurve overForce(double newtonsPerUnit, double readingSd, double dof) {
    double[] scaled = coefficients();
    double[][] matrix = new double[scaled.length][scaled.length];
    for (int i = 0; i < scaled.length; i++) {
      scaled[i] /= Math.pow(newtonsPerUnit, i);
      for (int j = 0; j < scaled.length; j++) {
        double unscaled = readingSd * readingSd * unscaledCovariance[i][j];
        matrix[i][j] = unscaled / Math.pow(newtonsPerUnit, i + j);
      }
    }
    return new CalibrationCurve(scaled, matrix, dof);
  }
}
