package snick.cut;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import snick.cut.estimate.BreakEstimator;

/** Runs a detector over modelled readings and keeps what it says. */
final class Recorder {
  /** What it keeps from cut to cut depends on rate and length only and is slow to make. */
  private static final BreakEstimator ESTIMATOR = new BreakEstimator();

  private Recorder() {}

  /** The cuts of a force over time, in gf and s. */
  static List<Cut> of(RigModel rig, DoubleUnaryOperator force, double seconds) {
    return of(rig, rig.readings(force, seconds));
  }

  /** The cuts of readings in gf. */
  static List<Cut> of(RigModel rig, double[] readings) {
    List<Cut> cuts = new ArrayList<>();
    CutDetector detector = new CutDetector(DetectorSettings.defaults(), cuts::add, ESTIMATOR);
    rig.feed(readings, detector);
    detector.end();
    return cuts;
  }

  /** The estimate in gf. */
  static double gf(Cut cut) {
    return cut.peak().orElseThrow().estimateCounts() / RigModel.COUNTS_PER_GF;
  }

  /** Its standard uncertainty in gf. */
  static double uncertaintyGf(Cut cut) {
    return cut.peak().orElseThrow().standardUncertaintyCounts() / RigModel.COUNTS_PER_GF;
  }
}
