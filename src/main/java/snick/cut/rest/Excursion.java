package snick.cut.rest;

/**
 * Readings in a row outside the rest, on one side of it. Two far off begin an event, or three of
 * which one leaves the rest band: a single spike does not. One thread; allocates nothing.
 */
public final class Excursion {
  private static final int SAMPLES_THAT_BEGIN = 3;
  private static final int FAR_SAMPLES_THAT_BEGIN = 2;

  /** So many bands off is far. Half or twice as much finds the same cuts (seeds 20040 to 20059). */
  private static final double FAR_BANDS = 1.6;

  private int run;
  private double farthest;
  private double least;

  /** The readings are back, or their row is broken. */
  public void clear() {
    run = 0;
  }

  /**
   * Takes a reading outside; whether an event has begun.
   *
   * @param away how far from the level of the rest, counts
   * @param bandCounts the rest band
   */
  public boolean begins(double away, double bandCounts) {
    int side = away > 0 ? 1 : -1;
    boolean same = run * side > 0;
    run = same ? run + side : side;
    least = same ? Math.min(least, Math.abs(away)) : Math.abs(away);
    farthest = Math.max(same ? farthest : 0, Math.abs(away));
    int readings = Math.abs(run);
    return (readings >= SAMPLES_THAT_BEGIN && farthest > bandCounts)
        || (readings >= FAR_SAMPLES_THAT_BEGIN && least > FAR_BANDS * bandCounts);
  }

  /** The side that they are on: 1 above the rest, −1 below. */
  public int side() {
    return Integer.signum(run);
  }
}
