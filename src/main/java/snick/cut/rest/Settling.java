package snick.cut.rest;

/**
 * What follows a fall: the fixture rings, some load may remain and go later, and the next loading
 * may begin before either is over. A ring swings about a level and dies away; a remainder stays or
 * goes; only a loading raises the level. Counts above zero, positive in loading direction. One
 * thread; allocates nothing.
 */
public final class Settling {
  /** What a tick tells. */
  public enum State {
    /** Swings, or a remainder may still go. */
    UNSETTLED,
    /** At rest. */
    SETTLED,
    /** The next loading has begun. */
    LOADED,
    /** A loading in the other direction has begun: it was what fell. */
    LOADED_OTHERWISE
  }

  /** A remaining load that has not gone by then is taken to stay. */
  private static final long REMAINS_NANOS = 600_000_000L;

  /**
   * Whatever swings longer than this is no ring of the fixture (0.01 of critical at 25 Hz: 6 s).
   */
  private static final long LONGEST_RING_NANOS = 8_000_000_000L;

  /**
   * A ring of any decay that sank from the force to the noise in some time sinks in a quarter of it
   * by another third to tenth: only then noise and zero are learnt again.
   */
  private static final double LONGER = 0.25;

  /**
   * Share of the swing, peak to peak, by which the level may be off: it shows less than a twentieth
   * of the amplitude of a steady ring, more of one that dies away within a few swings.
   */
  private static final double LEVEL_SHARE = 0.15;

  /**
   * Nobody lifts the edge and presses again sooner after a break (an assumption). Until then a ring
   * that is faster than the samples may look like anything.
   */
  private static final long SOONEST_NANOS = 200_000_000L;

  /**
   * And after that, a rise less than what may be left of its swings is none: they die away by a
   * factor e in this time or sooner (106 Hz, damping ratio 0.01), ns. Found on seed 20050, 93 Hz at
   * 99 samples/s: 19 false cuts without this, 21 with 60 ms, 3 with 100 ms, none with 150 ms.
   */
  private static final double FADES_NANOS = 150e6;

  /** Share of a swing, peak to peak, that a level averaged over it may be off. */
  private static final double LEAK = 0.025;

  /** A level above the zero by more of its doubts is a load that remains. */
  private static final double DOUBTS = 3;

  private double levelShare;
  private double riseCounts;
  private double calmCounts;
  private double otherwiseCounts;
  private double levelDoubtCounts;
  private long fellNanos;
  private long calmNanos;
  private boolean calm;
  private double lowest;
  private double lowestSwing;
  private double level;
  private double zeroDoubt;
  private double swing;

  /**
   * Begins at a fall.
   *
   * @param riseCounts by how much a loading raises the level at least
   * @param otherwiseCounts a level lower by this is no ring's: what fell was less
   * @param calmCounts how far readings at rest swing at most
   * @param levelDoubtCounts standard uncertainty of a level at rest
   * @param readingShare share of the level that two readings in a row, if spikes, make at most
   */
  public void begin(
      long fellNanos,
      double riseCounts,
      double otherwiseCounts,
      double calmCounts,
      double levelDoubtCounts,
      double readingShare) {
    levelShare = Math.max(LEVEL_SHARE, readingShare);
    this.fellNanos = fellNanos;
    this.riseCounts = riseCounts;
    this.calmCounts = calmCounts;
    this.otherwiseCounts = otherwiseCounts;
    this.levelDoubtCounts = levelDoubtCounts;
    calm = false;
    lowest = Double.POSITIVE_INFINITY;
    lowestSwing = 0;
  }

  /** Another tick, with the level, the zero's standard uncertainty and the swing then. */
  public State tick(long nanos, double levelCounts, double zeroDoubtCounts, double swingCounts) {
    level = levelCounts;
    zeroDoubt = zeroDoubtCounts;
    swing = swingCounts;
    double doubt = levelShare * swingCounts;
    if (nanos - fellNanos < SOONEST_NANOS) {
      lowest = level;
      lowestSwing = swingCounts;
    }
    if (level + doubt < lowest + levelShare * lowestSwing) {
      lowest = level;
      lowestSwing = swingCounts;
    }
    double rings = otherwiseCounts * StrictMath.exp((fellNanos - nanos) / FADES_NANOS);
    if (level - doubt > lowest + levelShare * lowestSwing + Math.max(riseCounts, rings)) {
      return State.LOADED;
    }
    if (level + doubt < -otherwiseCounts) {
      return State.LOADED_OTHERWISE;
    }
    boolean wasCalm = calm;
    calm = swingCounts <= calmCounts;
    calmNanos = calm && !wasCalm ? nanos : calmNanos;
    return settled(nanos) ? State.SETTLED : State.UNSETTLED;
  }

  private boolean settled(long nanos) {
    long since = nanos - fellNanos;
    if (since > LONGEST_RING_NANOS) {
      return true;
    }
    boolean remains = level + zeroDoubt > DOUBTS * Math.hypot(levelDoubtCounts, LEAK * swing);
    boolean gone = !remains || since >= REMAINS_NANOS;
    return calm && gone && nanos - calmNanos >= LONGER * (calmNanos - fellNanos);
  }

  /** Whether the last readings swung no more than at rest. */
  boolean calm() {
    return calm;
  }

  /** Lowest level since the fall, counts. */
  public double lowestCounts() {
    return lowest;
  }

  /** By how much that may be wrong for the swing about it, counts. */
  public double lowestDoubtCounts() {
    return LEAK * lowestSwing;
  }
}
