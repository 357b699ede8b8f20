package snick.cut;

import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * All of the regression that depends on the sampling rate only, kept from cut to cut: the basis,
 * the tables of the filters, and the factors of the early readings. One thread.
 */
final class RampDesign {
  private static final double WINDOW_SECONDS = 0.7;
  private static final double LEAST_WINDOW = 24;

  /** Bounds memory whatever rate the time stamps claim. */
  private static final double MOST_WINDOW = 2048;

  private static final double HIGHEST_HERTZ = 13;
  private static final double NYQUIST_SHARE = 0.45;

  /**
   * Lowest frequency as a share of the window's inverse, so that its period outlasts the window.
   */
  private static final double STEP_PER_WINDOW = 0.65;

  /** Prior deviation of level and rise of the straight part, noises: as good as none. */
  private static final double TREND_NOISES = 1e5;

  private static final int FACTORS_KEPT = 96;

  /** Enough for all phases, filters and priors that cuts of one rig ask for; about 3 MB. */
  private static final int VIEWS_KEPT = 1 << 12;

  private static final int SLOT_SHIFT = 32 - 12;

  /** A large odd factor, so that neighbouring keys do not share slots (Fibonacci hashing). */
  private static final int SPREAD = 0x9E37_79B1;

  private static final int FINEST_STEP = 4;
  private static final int STEPS_PER_OCTAVE = 4;

  private final double rateHertz;
  private final int window;
  private final LoadingBasis basis;
  private final LateNodes nodes;
  private final LateRegression regression = new LateRegression();
  private final double[][] rows;
  private final KernelTable[] tables = new KernelTable[Kernel.FAMILY.size()];
  private final LateView[] views = new LateView[VIEWS_KEPT];
  private final int[] viewKeys = new int[VIEWS_KEPT];
  private final Map<Integer, double[]> grams = new HashMap<>();
  private final Map<Integer, EarlyFactor[]> factors =
      new LinkedHashMap<>(64, 0.75f, true) {
        private static final long serialVersionUID = 1;

        @Override
        protected boolean removeEldestEntry(Map.Entry<Integer, EarlyFactor[]> eldest) {
          return size() > FACTORS_KEPT;
        }
      };

  RampDesign(double rateHertz) {
    this.rateHertz = rateHertz;
    double span = Math.min(MOST_WINDOW, Math.max(LEAST_WINDOW, WINDOW_SECONDS * rateHertz));
    double top = Math.min(HIGHEST_HERTZ / rateHertz, NYQUIST_SHARE);
    double step = STEP_PER_WINDOW / span;
    window = (int) span;
    basis = new LoadingBasis(0, span, step, (int) Math.floor(top / step));
    nodes = new LateNodes(top);
    rows = new double[window][basis.size()];
    for (int i = 0; i < window; i++) {
      basis.at(RampWindow.LATE_FROM - 1 - i, rows[i]);
    }
  }

  double rateHertz() {
    return rateHertz;
  }

  LateRegression regression() {
    return regression;
  }

  LateNodes nodes() {
    return nodes;
  }

  /** How many early readings to use if there are this many: few distinct numbers, kept ready. */
  int early(int available) {
    int most = Math.min(available, window);
    int step = Math.max(FINEST_STEP, Integer.highestOneBit(most) / STEPS_PER_OCTAVE);
    return most / step * step;
  }

  KernelTable table(int kernel) {
    if (tables[kernel] == null) {
      tables[kernel] = new KernelTable(Kernel.FAMILY.get(kernel), nodes);
    }
    return tables[kernel];
  }

  /** The basis times the early readings, oldest first. */
  double[] right(double[] early) {
    double[] right = new double[basis.size()];
    for (int i = 0; i < early.length; i++) {
      double[] row = rows[early.length - 1 - i];
      double reading = early[i];
      for (int j = 0; j < right.length; j++) {
        right[j] += row[j] * reading;
      }
    }
    return right;
  }

  EarlyFactor factor(int early, int kernel, int unevenness) {
    EarlyFactor[] all =
        factors.computeIfAbsent(
            early * tables.length + kernel, k -> new EarlyFactor[Unevenness.LADDER.size()]);
    if (all[unevenness] == null) {
      all[unevenness] = make(early, Kernel.FAMILY.get(kernel), Unevenness.LADDER.get(unevenness));
    }
    return all[unevenness];
  }

  /** How the late samples see the loading if the break lies at a phase. */
  LateView view(int early, int kernel, int unevenness, int phase) {
    int priors = Unevenness.LADDER.size();
    int phases = 2 * KernelTable.MOST_PHASE + 1;
    int key = ((early * tables.length + kernel) * priors + unevenness) * phases + phase;
    int slot = (key * SPREAD) >>> SLOT_SHIFT;
    if (views[slot] == null || viewKeys[slot] != key) {
      double[] covariance = factor(early, kernel, unevenness).nodeCovariance();
      views[slot] = new LateView(table(kernel), phase, covariance, nodes.size());
      viewKeys[slot] = key;
    }
    return views[slot];
  }

  private EarlyFactor make(int early, Kernel kernel, Unevenness unevenness) {
    double[] gram = grams.computeIfAbsent(early, this::gram);
    double[] gains = new double[basis.size()];
    Arrays.fill(gains, 1);
    for (int m = 0; m < basis.harmonics(); m++) {
      gains[2 + 2 * m] = kernel.gain(basis.frequency(m));
      gains[3 + 2 * m] = gains[2 + 2 * m];
    }
    double[] variances = unevenness.variances(basis, rateHertz, 1, TREND_NOISES);
    return new EarlyFactor(gram, gains, variances, basis, nodes);
  }

  private double[] gram(int early) {
    int size = basis.size();
    double[] gram = new double[size * size];
    for (double[] row : List.of(rows).subList(0, early)) {
      for (int i = 0; i < size; i++) {
        for (int j = 0; j <= i; j++) {
          gram[i * size + j] += row[i] * row[j];
        }
      }
    }
    return gram;
  }
}
