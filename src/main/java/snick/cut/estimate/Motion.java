package snick.cut.estimate;

/**
 * What a hand may do beside pressing evenly, as a stationary process. Shapes and figures: common
 * practice, no source; they only have to be broad, for their evidence decides.
 */
enum Motion {
  /** Nothing. */
  NONE(0, 0),
  /** Tremor near one frequency. */
  TREMOR_LOW(5, 0.4),
  /** The same. */
  TREMOR(8, 0.4),
  /** The same. */
  TREMOR_HIGH(11.5, 0.4),
  /** Broad-band tremor, smooth over some 30 ms. */
  BROAD(12, 0.03),
  /** Sticking and slipping, rough at any scale. */
  ROUGH(6, 0.06),
  /** The same, so quick that a line with more noise looks much like it. */
  ROUGH_QUICK(6, 0.006),
  /**
   * A heavy fixture's own swinging, excited by an uneven touch: in the readings, not in the force.
   */
  SWING_LOW(27, 0.3),
  /** The same, of a lighter one. */
  SWING(42, 0.2);

  private static final double TURN = 2 * Math.PI;

  private final double hertz;
  private final double coherenceSeconds;

  Motion(double hertz, double coherenceSeconds) {
    this.hertz = hertz;
    this.coherenceSeconds = coherenceSeconds;
  }

  /** Frequency, or about the middle of the band, Hz. */
  double hertz() {
    return hertz;
  }

  /** Whether the fixture moves so by itself, so that the edge's force has nothing of it. */
  boolean ofFixture() {
    return this == SWING_LOW || this == SWING;
  }

  /**
   * Share of its amplitude that a filter of this standard deviation in time leaves, s: 0 to 1. A
   * rough motion behind one pole (its variance falls to τ/(τ + s), the Ornstein-Uhlenbeck process,
   * from memory), others at their frequency behind a Gaussian.
   */
  double leftBehind(double smearSeconds) {
    double turns = TURN * hertz * smearSeconds;
    return switch (this) {
      case ROUGH, ROUGH_QUICK -> Math.sqrt(coherenceSeconds / (coherenceSeconds + smearSeconds));
      default -> StrictMath.exp(-0.5 * turns * turns);
    };
  }

  /** Correlation of the motion with itself so many seconds apart, −1 to 1. */
  double correlation(double seconds) {
    double apart = Math.abs(seconds);
    if (this == NONE) {
      return 0;
    }
    double lengths = apart / coherenceSeconds;
    double fading = StrictMath.exp(-lengths);
    return switch (this) {
      case BROAD -> (1 + lengths + lengths * lengths / 3) * fading;
      case ROUGH, ROUGH_QUICK -> fading;
      default -> fading * StrictMath.cos(TURN * hertz * apart);
    };
  }
}
