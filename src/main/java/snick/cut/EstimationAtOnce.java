package snick.cut;

import snick.cut.estimate.BreakEstimator;

/** Estimates each force as soon as its cut is found. */
final class EstimationAtOnce implements Estimation {
  private final CutSink sink;
  private final BreakEstimator estimator;

  EstimationAtOnce(CutSink sink, BreakEstimator estimator) {
    this.sink = sink;
    this.estimator = estimator;
  }

  @Override
  public void take(FoundLoading finding) {
    sink.cut(finding.cut(estimator));
  }

  @Override
  public void handOn() {
    // Nothing waits.
  }
}
