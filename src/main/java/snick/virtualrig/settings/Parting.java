package snick.virtualrig.settings;

import java.util.Objects;

/**
 * How a filament lets go.
 *
 * @param law course of the force
 * @param millis time in which it falls, ms, 0.001 to 100
 * @param residualShare share of the force that a strand or friction keeps for a while, 0 to 0.2
 * @param residualSeconds how long it keeps it, s, 0 to 10; then it slips out within 40 ms
 */
public record Parting(Law law, double millis, double residualShare, double residualSeconds) {
  /** Course of the force while the filament lets go. */
  public enum Law {
    /** Gone in an instant. */
    AT_ONCE,
    /** Falls evenly. */
    LINEAR,
    /** Falls as half a cosine wave. */
    SMOOTH,
    /** Relaxes as a spring and a damper in series do; a twentieth is left after the time. */
    VISCOELASTIC
  }

  private static final double TIME_CONSTANTS = 3;
  private static final double TIMES_TO_NOTHING = 5;

  public Parting {
    Objects.requireNonNull(law);
    SettingRange.check("parting time, ms,", millis, 1e-3, 100);
    SettingRange.check("residual share", residualShare, 0, 0.2);
    SettingRange.check("time of the residual, s,", residualSeconds, 0, 10);
  }

  /** An even fall to nothing. */
  public static Parting linear(double millis) {
    return of(Law.LINEAR, millis);
  }

  /** A fall to nothing. */
  public static Parting of(Law law, double millis) {
    return new Parting(law, millis, 0, 0);
  }

  /** The same, but a share of the force stays for a time, s. */
  public Parting leaving(double share, double seconds) {
    return new Parting(law, millis, share, seconds);
  }

  /** Share of the falling force that is left, 1 to 0. */
  public double shareLeft(double seconds) {
    double part = seconds * 1000 / millis;
    return switch (law) {
      case AT_ONCE -> 0;
      case LINEAR -> Math.max(0, 1 - part);
      case SMOOTH -> part < 1 ? (1 + StrictMath.cos(StrictMath.PI * part)) / 2 : 0;
      case VISCOELASTIC -> part < TIMES_TO_NOTHING ? StrictMath.exp(-TIME_CONSTANTS * part) : 0;
    };
  }

  /** Time after which nothing falls any more, s. */
  public double lengthSeconds() {
    return millis / 1000 * (law == Law.VISCOELASTIC ? TIMES_TO_NOTHING : 1);
  }
}
