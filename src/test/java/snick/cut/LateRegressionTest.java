package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.assertj.core.data.Offset;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The regression on the late readings beside what the same normal model gives when written down
 * whole and conditioned by a library's matrices (Rasmussen and Williams, Gaussian Processes for
 * Machine Learning, 2006, appendix A.2, from memory): y = W·v + a·gone + s·drop·slide + e, with v
 * the values at the nodes, s the move of the break (deviation 0.3 periods) and e the noise.
 */
class LateRegressionTest {
  private static final int EARLY = 32;
  private static final double NOISE = 5;
  private static final double SHIFT_VARIANCE = 0.09;

  private final RampDesign design = new RampDesign(80);
  private DMatrixRMaj w;
  private DMatrixRMaj sigma;
  private DMatrixRMaj means;
  private DMatrixRMaj slide;
  private DMatrixRMaj left;
  private DMatrixRMaj inverse;
  private double drop;
  private double logDeterminant;

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
  void isTheWholeModelConditioned(int seed) {
    Random random = new Random(seed);
    RampWindow window = window(random);
    int kernel = random.nextInt(Kernel.FAMILY.size());
    int prior = random.nextInt(Unevenness.LADDER.size());
    int phase = random.nextInt(2 * 16 + 1) - 16;
    LateSpread spread =
        LateSpread.of(window, random.nextInt(3) * 7.0).misfitting(1 + 0.2 * random.nextInt(3));
    double[] atNodes = new EarlyReadings(design, window.early).means(kernel, prior);
    LateView view = design.view(EARLY, kernel, prior, phase, spread);
    LateRegression regression = new LateRegression(design.nodes().size());
    assertThat(regression.fit(window, view, atNodes, 0)).isTrue();

    writeDown(window, kernel, prior, phase, spread, atNodes);

    DMatrixRMaj explained = times(inverse, left);
    double square = dot(left, explained);
    assertThat(regression.logEvidence())
        .isCloseTo(-0.5 * square - 0.5 * logDeterminant, relative(1 + square));
    assertThat(regression.shift())
        .isCloseTo(SHIFT_VARIANCE * drop * dot(slide, explained), relative(1));
    assertThat(regression.misfit()).isCloseTo(misfit(explained, spread), relative(1));
    CrossingWeight expected = force(explained, view);
    assertThat(regression.force().mean()).isCloseTo(expected.mean(), relative(expected.mean()));
    assertThat(regression.force().variance())
        .isCloseTo(expected.variance(), relative(1 + expected.variance()));
  }

  /** A ramp with noise that parts, and rings a little. */
  private static RampWindow window(Random random) {
    SampleLog log = new SampleLog();
    for (int i = 0; i < 120; i++) {
      double loading = Math.max(0, Math.min(i, 95) - 40) * 30.0;
      double ring = i > 95 ? 20 * Math.cos(i) : 0;
      double reading = (i > 95 ? 0 : loading) + ring + NOISE * random.nextGaussian();
      log.add(i * 12_500_000L, (int) Math.round(reading), false);
    }
    Samples s = Samples.of(log, 0, 1, 12.5e6, 0);
    s.usable[94] = random.nextBoolean();
    return new RampWindow(s, 95, EARLY, 95 + 2 + random.nextInt(2), 0.4 * NOISE, NOISE);
  }

  private void writeDown(
      RampWindow window, int kernel, int prior, int phase, LateSpread spread, double[] atNodes) {
    int q = design.nodes().size();
    int n = Integer.bitCount(spread.usableBits());
    w = new DMatrixRMaj(n, q);
    slide = new DMatrixRMaj(n, 1);
    left = new DMatrixRMaj(n, 1);
    means = new DMatrixRMaj(q, 1, true, atNodes);
    sigma = covariance(q, design.nodes(EARLY, kernel, prior).covariance());
    drop = dot(column(design.nodes().sharesAt(phase)), means) - window.after;
    DMatrixRMaj noise = new DMatrixRMaj(n, n);
    int i = 0;
    for (int late : spread.places()) {
      double seen = 0;
      for (int k = 0; k < q; k++) {
        w.set(i, k, design.table(kernel).seen(phase).weights[late * q + k]);
        seen += w.get(i, k) * atNodes[k];
      }
      double gone = 1 - CommonOps_DDRM.elementSum(CommonOps_DDRM.extractRow(w, i, null));
      slide.set(i, 0, design.table(kernel).seen(phase).densities[late]);
      left.set(i, 0, window.late[late] - seen - window.after * gone);
      noise.set(i, i, spread.variance(gone));
      i++;
    }
    DMatrixRMaj a = times(times(w, sigma), transposed(w));
    CommonOps_DDRM.addEquals(a, noise);
    CommonOps_DDRM.multAddTransB(SHIFT_VARIANCE * drop * drop, slide, slide, a);
    logDeterminant = Math.log(CommonOps_DDRM.det(a));
    inverse = new DMatrixRMaj(n, n);
    CommonOps_DDRM.invert(a, inverse);
  }

  private static DMatrixRMaj covariance(int nodes, RowBlocks told) {
    DMatrixRMaj covariance = new DMatrixRMaj(nodes, nodes);
    for (int i = 0; i < nodes * nodes; i++) {
      covariance.set(i / nodes, i % nodes, told.at(i / nodes, i % nodes));
    }
    return covariance;
  }

  private double misfit(DMatrixRMaj explained, LateSpread spread) {
    double sum = 0;
    for (int i = 0; i < explained.numRows; i++) {
      double gone = 1 - CommonOps_DDRM.elementSum(CommonOps_DDRM.extractRow(w, i, null));
      sum += spread.variance(gone) * explained.get(i, 0) * explained.get(i, 0);
    }
    return Math.sqrt(sum / explained.numRows);
  }

  /** Force and rate where the break is, which moves along the loading at its rate. */
  private CrossingWeight force(DMatrixRMaj explained, LateView view) {
    DMatrixRMaj rateSeen = times(times(w, sigma), column(view.rateShare));
    double rate = dot(column(view.rateShare), means) + dot(rateSeen, explained);
    DMatrixRMaj forceSeen = times(times(w, sigma), column(view.forceShare));
    CommonOps_DDRM.addEquals(forceSeen, SHIFT_VARIANCE * drop * rate, slide);
    double force = dot(column(view.forceShare), means) + dot(forceSeen, explained);
    double moved = SHIFT_VARIANCE * rate * rate;
    return CrossingWeight.of(
        force,
        prior(view.forceShare, view.forceShare) + moved - form(forceSeen, forceSeen),
        rate,
        prior(view.rateShare, view.rateShare) - form(rateSeen, rateSeen),
        prior(view.forceShare, view.rateShare) - form(forceSeen, rateSeen));
  }

  private double prior(double[] a, double[] b) {
    return dot(column(a), times(sigma, column(b)));
  }

  private double form(DMatrixRMaj a, DMatrixRMaj b) {
    return dot(a, times(inverse, b));
  }

  private static DMatrixRMaj column(double[] values) {
    return new DMatrixRMaj(values.length, 1, true, values);
  }

  private static DMatrixRMaj times(DMatrixRMaj a, DMatrixRMaj b) {
    return CommonOps_DDRM.mult(a, b, null);
  }

  private static DMatrixRMaj transposed(DMatrixRMaj a) {
    return CommonOps_DDRM.transpose(a, null);
  }

  private static double dot(DMatrixRMaj a, DMatrixRMaj b) {
    return times(transposed(a), b).get(0, 0);
  }

  private static Offset<Double> relative(double size) {
    return within(1e-6 * Math.abs(size));
  }
}
