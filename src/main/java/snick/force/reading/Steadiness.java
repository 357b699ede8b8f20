package snick.force.reading;

import snick.force.mass.Range;

/**
 * When a reading counts as steady. Own criterion: over a window, the straight line through the
 * samples moves by no more than {@code driftInNoise} standard deviations of one sample at rest (at
 * least one count), and the samples scatter about that line by no more than {@code scatterInNoise}
 * of them. Two windows in a row must be steady, and the second is the reading, so that what is left
 * of settling in the first stays out. The noise is that of the last accepted zero; for the first
 * zero it is the window's own.
 *
 * @param windowSeconds length of a window, 0.2 s to 60 s
 * @param driftInNoise limit of drift over the window, above 0
 * @param scatterInNoise limit of scatter, above 1
 * @param timeoutSeconds how long to wait at most, longer than the window
 */
public record Steadiness(
    double windowSeconds, double driftInNoise, double scatterInNoise, double timeoutSeconds) {
  /** Two seconds, one noise, twice the noise, one minute. */
  public static final Steadiness USUAL = new Steadiness(2, 1, 2, 60);

  public Steadiness {
    Range.require("window", windowSeconds, 0.2, 60, "s");
    Range.require("time-out", timeoutSeconds, windowSeconds, 3600, "s");
    if (!(driftInNoise > 0) || !(scatterInNoise > 1)) {
      throw new IllegalArgumentException(
          "drift limit %s not above 0, or scatter limit %s not above 1 noise"
              .formatted(driftInNoise, scatterInNoise));
    }
  }

  /**
   * How far a reading has settled.
   *
   * @param filledSeconds how much of the window is filled, s
   * @param driftCounts drift over the window, counts, signed
   * @param driftLimitCounts its limit
   * @param scatterCounts standard deviation about the line, counts
   * @param scatterLimitCounts its limit
   * @param steady whether the window is full and both limits hold
   */
  public record Settling(
      double filledSeconds,
      double driftCounts,
      double driftLimitCounts,
      double scatterCounts,
      double scatterLimitCounts,
      boolean steady) {
    /** No samples yet. */
    static final Settling NOTHING = new Settling(0, 0, 0, 0, 0, false);
  }
}
