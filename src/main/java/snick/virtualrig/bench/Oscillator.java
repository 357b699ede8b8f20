package snick.virtualrig.bench;

import snick.virtualrig.settings.Mechanics;

/**
 * The fixture of {@link Mechanics} in motion: y″ + 2ζωy′ + ω²y = ω²F. Each step is exact for a
 * force that stands still during it (the matrix exponential in closed form), so no energy is made
 * or lost but by ζ; where ζ changes, place and speed go on. For one thread.
 */
public final class Oscillator {
  /** Swings of less than a thousandth of the least noise of a bridge amplifier count as rest. */
  private static final double REST_GRAM_FORCE = 1e-5;

  private final double angularFrequency;
  private final Turn free;
  private final Turn held;
  private double gramForce;
  private double gramForcePerSecond;

  public Oscillator(Mechanics mechanics) {
    this.angularFrequency = 2 * StrictMath.PI * mechanics.resonanceHertz();
    this.free = new Turn(mechanics.dampingRatio());
    this.held = new Turn(mechanics.heldDampingRatio());
  }

  /** Mean reading during a step in which this force stands at the filament, both gf. */
  public double advance(double forceGramForce, double stepSeconds, boolean handHolds) {
    Turn turn = handHolds ? held : free;
    turn.prepare(stepSeconds);
    return turn.go(forceGramForce);
  }

  /** Whether the reading is this force and stays so; what is left of the swing is then dropped. */
  boolean restsAt(double forceGramForce) {
    boolean rests =
        Math.hypot(gramForce - forceGramForce, gramForcePerSecond / angularFrequency)
            < REST_GRAM_FORCE;
    if (rests) {
      gramForce = forceGramForce;
      gramForcePerSecond = 0;
    }
    return rests;
  }

  double gramForce() {
    return gramForce;
  }

  /** One step's turn of the state, for one damping ratio. */
  private final class Turn {
    private final double decayPerSecond;
    private final double dampedFrequency;
    private double stepSeconds;
    private double placeFromPlace;
    private double placeFromSpeed;
    private double speedFromPlace;
    private double speedFromSpeed;

    Turn(double dampingRatio) {
      this.decayPerSecond = dampingRatio * angularFrequency;
      this.dampedFrequency = angularFrequency * StrictMath.sqrt(1 - dampingRatio * dampingRatio);
    }

    void prepare(double seconds) {
      if (seconds == stepSeconds) {
        return;
      }
      stepSeconds = seconds;
      double left = StrictMath.exp(-decayPerSecond * seconds);
      double cosine = left * StrictMath.cos(dampedFrequency * seconds);
      double sine = left * StrictMath.sin(dampedFrequency * seconds) / dampedFrequency;
      placeFromPlace = cosine + decayPerSecond * sine;
      placeFromSpeed = sine;
      speedFromPlace = -angularFrequency * angularFrequency * sine;
      speedFromSpeed = cosine - decayPerSecond * sine;
    }

    /** The mean follows from the equation of motion, integrated over the step. */
    double go(double forceGramForce) {
      double away = gramForce - forceGramForce;
      double awayAfter = placeFromPlace * away + placeFromSpeed * gramForcePerSecond;
      double speedAfter = speedFromPlace * away + speedFromSpeed * gramForcePerSecond;
      double change = speedAfter - gramForcePerSecond + 2 * decayPerSecond * (awayAfter - away);
      gramForce = forceGramForce + awayAfter;
      gramForcePerSecond = speedAfter;
      return forceGramForce - change / (angularFrequency * angularFrequency * stepSeconds);
    }
  }
}
