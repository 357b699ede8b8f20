package snick.cut;

/**
 * Holds an estimate against what can be: a filter of positive weights never shows more than the
 * force that was there, so the estimate cannot lie below the largest reading beside the fall by
 * more than noise and tremor. A ramp of hardly more than a sampling period leaves the force
 * undetermined; then the largest reading is a lower bound and little else.
 */
final class Plausible {
  private static final double BELOW_NOISES = 4;
  private static final double BELOW_TREMORS = 4;
  private static final double MOST_SWING_SHARE = 0.08;
  private static final double MOST_HEIGHTS = 4;
  private static final double UNSURE_SHARE = 0.3;

  private final double height;
  private final double noise;

  Plausible(double height, double noise) {
    this.height = height;
    this.noise = noise;
  }

  /** The estimate if it can be; else the line's; else twice the largest reading, wholly unsure. */
  BreakEstimate of(BreakEstimate e, BreakEstimate line) {
    if (holds(e)) {
      return e;
    }
    double spread = 0.5 * Math.abs(line.forceCounts() - height);
    BreakEstimate wide =
        line.withUncertainty(line.forceCounts(), Math.hypot(line.uncertaintyCounts(), spread));
    return holds(wide) ? wide : e.withUncertainty(2 * height, height);
  }

  private boolean holds(BreakEstimate e) {
    double swing = Math.min(BELOW_TREMORS * e.tremorNoises() * noise, MOST_SWING_SHARE * height);
    double below = BELOW_NOISES * noise + swing;
    return e.forceCounts() > height - below - e.uncertaintyCounts()
        && e.forceCounts() < MOST_HEIGHTS * height
        && e.uncertaintyCounts() < UNSURE_SHARE * e.forceCounts();
  }
}
