package snick.cut;

import java.util.Arrays;

/**
 * All of the regression that depends on the sampling rate only, kept from cut to cut: the basis,
 * the tables of the filters, and the factors of the early readings. One thread.
 */
final class RampDesign {
  private static final double WINDOW_SECONDS = 0.7;
  private static final double LEAST_WINDOW = 24;

  /** Bounds memory whatever rate the time stamps claim. */
  private static final int MOST_WINDOW = 2048;

  private static final double HIGHEST_HERTZ = 13;
  private static final double NYQUIST_SHARE = 0.45;

  /**
   * Lowest frequency as a share of the window's inverse, so that its period outlasts the window.
   */
  private static final double STEP_PER_WINDOW = 0.65;

  /** Of four kilobytes at most, for all breaks, filters and priors that one rig's cuts ask for. */
  private static final int VIEWS_KEPT = 1 << 12;

  /** Each key has a pair of slots, so that two that are asked for in turn can both stay. */
  private static final int PAIR_SHIFT = 64 - 11;

  /** A large odd factor, so that neighbouring keys do not share slots (Fibonacci hashing). */
  private static final long SPREAD = 0x9E37_79B9_7F4A_7C15L;

  private static final int FINEST_STEP = 4;
  private static final int STEPS_PER_OCTAVE = 4;

  private final double rateHertz;
  private final int window;
  private final LoadingBasis basis;
  private final LateNodes nodes;
  private final LateRegression regression;
  private final double[][] columns;
  private final double[][] gains = new double[Kernel.FAMILY.size()][];
  private final double[][] deviations = new double[Unevenness.LADDER.size()][];
  private final KernelTable[] tables = new KernelTable[Kernel.FAMILY.size()];
  private final LateView[] views = new LateView[VIEWS_KEPT];
  private final long[] viewKeys = new long[VIEWS_KEPT];
  private final EarlyFrame[] frames;
  private final EarlyFactor[][] factors;
  private final RowBlocks[][] meanShares;
  private int usualBefore;

  RampDesign(double rateHertz) {
    this.rateHertz = rateHertz;
    double span = Math.min(MOST_WINDOW, Math.max(LEAST_WINDOW, WINDOW_SECONDS * rateHertz));
    double top = Math.min(HIGHEST_HERTZ / rateHertz, NYQUIST_SHARE);
    double step = STEP_PER_WINDOW / span;
    window = (int) span;
    basis = new LoadingBasis(0, span, step, (int) Math.floor(top / step));
    nodes = new LateNodes(top);
    regression = new LateRegression(nodes.size());
    columns = columns();
    frames = new EarlyFrame[window + 1];
    factors = new EarlyFactor[window + 1][];
    meanShares = new RowBlocks[window + 1][];
  }

  /** The members of the basis at all readings that may be used, oldest first. */
  private double[][] columns() {
    double[][] columns = new double[basis.size()][window];
    double[] row = new double[basis.size()];
    for (int i = 0; i < window; i++) {
      basis.at(RampWindow.LATE_FROM - window + i, row);
      for (int j = 0; j < row.length; j++) {
        columns[j][i] = row[j];
      }
    }
    return columns;
  }

  double rateHertz() {
    return rateHertz;
  }

  LateRegression regression() {
    return regression;
  }

  /** The prior that the last loading bore out best. */
  int usualBefore() {
    return usualBefore;
  }

  void setUsualBefore(int unevenness) {
    usualBefore = unevenness;
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

  /** What so many early readings can show. */
  EarlyFrame frame(int early) {
    if (frames[early] == null) {
      addFrame(early);
    }
    return frames[early];
  }

  private void addFrame(int early) {
    double[][] newest = new double[2 + 2 * basis.harmonics()][];
    Arrays.setAll(newest, j -> Arrays.copyOfRange(columns[j], window - early, window));
    frames[early] =
        new EarlyFrame(newest[0], newest[1], Arrays.copyOfRange(newest, 2, newest.length));
    factors[early] = new EarlyFactor[tables.length * Unevenness.LADDER.size()];
  }

  EarlyFactor factor(int early, int kernel, int unevenness) {
    int at = kernel * Unevenness.LADDER.size() + unevenness;
    if (factors[early] == null || factors[early][at] == null) {
      addFactor(early, kernel, unevenness);
    }
    return factors[early][at];
  }

  private void addFactor(int early, int kernel, int unevenness) {
    EarlyFrame frame = frame(early);
    factors[early][kernel * Unevenness.LADDER.size() + unevenness] =
        new EarlyFactor(
            frame,
            gains(kernel),
            deviations(unevenness),
            Unevenness.LADDER.get(unevenness).logPrior());
  }

  private double[] gains(int kernel) {
    if (gains[kernel] == null) {
      gains[kernel] = new double[2 * basis.harmonics()];
      Arrays.setAll(gains[kernel], m -> Kernel.FAMILY.get(kernel).gain(basis.frequency(m / 2)));
    }
    return gains[kernel];
  }

  private double[] deviations(int unevenness) {
    if (deviations[unevenness] == null) {
      double[] variances = Unevenness.LADDER.get(unevenness).variances(basis, rateHertz, 1, 1);
      deviations[unevenness] = new double[2 * basis.harmonics()];
      Arrays.setAll(deviations[unevenness], m -> Math.sqrt(variances[2 + m]));
    }
    return deviations[unevenness];
  }

  /** What the early readings tell of the loading near the break. */
  EarlyFactor.Nodes nodes(int early, int kernel, int unevenness) {
    return factor(early, kernel, unevenness).nodes(basis, nodes);
  }

  /** Share of each coordinate in the means at the nodes, under all filters one after the other. */
  RowBlocks meanShares(int early, int unevenness) {
    if (meanShares[early] == null) {
      meanShares[early] = new RowBlocks[Unevenness.LADDER.size()];
    }
    if (meanShares[early][unevenness] == null) {
      meanShares[early][unevenness] = allShares(early, unevenness);
    }
    return meanShares[early][unevenness];
  }

  private RowBlocks allShares(int early, int unevenness) {
    int coordinates = 2 + frame(early).rank();
    RowBlocks all = new RowBlocks(tables.length * nodes.size(), coordinates);
    for (int k = 0; k < tables.length; k++) {
      EarlyFactor.Nodes own = nodes(early, k, unevenness);
      for (int i = 0; i < nodes.size() * coordinates; i++) {
        int j = i / coordinates;
        all.set(k * nodes.size() + j, i % coordinates, own.share(j, i % coordinates));
      }
    }
    return all;
  }

  /** How the late samples see the loading if the break lies at a phase. */
  LateView view(int early, int kernel, int unevenness, int phase, LateSpread spread) {
    if (!spread.usual()) {
      return made(early, kernel, unevenness, phase, spread);
    }
    long key = spread.key();
    key = key * (MOST_WINDOW + 1) + early;
    key = key * Unevenness.LADDER.size() + unevenness;
    key = key * tables.length + kernel;
    key = key * (2 * KernelTable.MOST_PHASE + 1) + phase;
    int slot = 2 * (int) ((key * SPREAD) >>> PAIR_SHIFT);
    if (!holds(slot, key)) {
      exchange(slot);
    }
    if (!holds(slot, key)) {
      views[slot] = made(early, kernel, unevenness, phase, spread);
      viewKeys[slot] = key;
    }
    return views[slot];
  }

  private boolean holds(int slot, long key) {
    return viewKeys[slot] == key && views[slot] != null;
  }

  /** Of a pair of slots the first holds what was asked for last. */
  private void exchange(int slot) {
    LateView view = views[slot];
    long key = viewKeys[slot];
    views[slot] = views[slot + 1];
    viewKeys[slot] = viewKeys[slot + 1];
    views[slot + 1] = view;
    viewKeys[slot + 1] = key;
  }

  private LateView made(int early, int kernel, int unevenness, int phase, LateSpread spread) {
    RowBlocks covariance = nodes(early, kernel, unevenness).covariance();
    return new LateView(table(kernel).seen(phase), nodes, covariance, spread);
  }
}
