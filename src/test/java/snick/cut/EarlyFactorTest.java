package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The regression on the early readings beside the same normal model written down whole, the flat
 * prior of the straight part made very wide (Bishop, Pattern Recognition and Machine Learning,
 * 2006, section 3.5, from memory). What no prior makes larger than a tenth of the noise is left out
 * of the frame: each such direction costs at most half of 0.1².
 */
class EarlyFactorTest {
  private static final double WIDE = 1e5;

  /** In units of the noise, and of the logarithm of evidence. */
  private static final double LEFT_OUT = 0.02;

  private final RampDesign design = new RampDesign(80);
  private final LoadingBasis basis = basis();

  @ParameterizedTest
  @CsvSource({"8, 1", "12, 2", "16, 3", "24, 4", "32, 5", "40, 6", "48, 7", "56, 8"})
  void evidenceAndNodesAreThoseOfTheWholeModel(int early, int seed) {
    double[] readings = readings(early, new Random(seed));
    EarlyReadings ours = new EarlyReadings(design, readings);
    int kernel = seed % Kernel.FAMILY.size();
    Whole even = new Whole(readings, kernel, 0);
    for (int u = 1; u < Unevenness.LADDER.size(); u++) {
      Whole whole = new Whole(readings, kernel, u);
      double behind =
          ours.logEvidence(kernel, u)
              - Unevenness.LADDER.get(u).logPrior()
              - ours.logEvidence(kernel, 0)
              + Unevenness.LADDER.get(0).logPrior();
      assertThat(behind).isCloseTo(whole.logEvidence - even.logEvidence, within(LEFT_OUT));
      double[] means = ours.means(kernel, u);
      for (int j = 0; j < design.nodes().size(); j++) {
        double deviation = Math.sqrt(whole.varianceAt(design.nodes().time(j)));
        assertThat(means[j])
            .isCloseTo(whole.at(design.nodes().time(j)), within(LEFT_OUT * (1 + deviation)));
      }
    }
  }

  private static double[] readings(int early, Random random) {
    double[] readings = new double[early];
    Arrays.setAll(readings, i -> 40 + 3 * i + 4 * Math.sin(0.6 * i) + random.nextGaussian());
    return readings;
  }

  /** That of a design for 80 readings a second. */
  private static LoadingBasis basis() {
    double span = 0.7 * 80;
    double step = 0.65 / span;
    return new LoadingBasis(0, span, step, (int) Math.floor(13.0 / 80 / step));
  }

  /** y = level + slope + sinusoids seen through a filter + noise, all of it normal. */
  private final class Whole {
    private final int members = basis.size() - 1;
    private final DMatrixRMaj covariance = new DMatrixRMaj(members, members);
    private final DMatrixRMaj means = new DMatrixRMaj(members, 1);
    final double logEvidence;

    Whole(double[] readings, int kernel, int unevenness) {
      double[] variances = Unevenness.LADDER.get(unevenness).variances(basis, 80, 1, WIDE);
      DMatrixRMaj seen = seen(readings.length, Kernel.FAMILY.get(kernel));
      DMatrixRMaj precision = new DMatrixRMaj(members, members);
      CommonOps_DDRM.multTransA(seen, seen, precision);
      double logPrior = 0;
      for (int j = 0; j < members; j++) {
        precision.add(j, j, 1 / variances[j]);
        logPrior += Math.log(variances[j]);
      }
      CommonOps_DDRM.invert(precision, covariance);
      DMatrixRMaj y = new DMatrixRMaj(readings.length, 1, true, readings);
      DMatrixRMaj right = CommonOps_DDRM.multTransA(seen, y, null);
      CommonOps_DDRM.mult(covariance, right, means);
      double square = CommonOps_DDRM.dot(y, y) - CommonOps_DDRM.dot(right, means);
      logEvidence = -0.5 * (square + logPrior + Math.log(CommonOps_DDRM.det(precision)));
    }

    private DMatrixRMaj seen(int n, Kernel kernel) {
      DMatrixRMaj seen = new DMatrixRMaj(n, members);
      for (int i = 0; i < n; i++) {
        DMatrixRMaj row = row(RampWindow.LATE_FROM - n + i);
        for (int j = 0; j < members; j++) {
          double gain = j < 2 ? 1 : kernel.gain(basis.frequency((j - 2) / 2));
          seen.set(i, j, gain * row.get(j, 0));
        }
      }
      return seen;
    }

    private DMatrixRMaj row(double time) {
      double[] row = new double[basis.size()];
      basis.at(time, row);
      return new DMatrixRMaj(members, 1, true, Arrays.copyOf(row, members));
    }

    double at(double time) {
      return CommonOps_DDRM.dot(row(time), means);
    }

    double varianceAt(double time) {
      DMatrixRMaj row = row(time);
      return CommonOps_DDRM.dot(row, CommonOps_DDRM.mult(covariance, row, null));
    }
  }
}
