package snick.virtualrig.bench;

import java.util.Random;
import snick.virtualrig.settings.HandSteadiness;

/**
 * An edge that sticks and slips on its way: force runs ahead of the hand while it sticks and falls
 * back at once, after times that vary by half about their mean.
 */
public final class StickSlip {
  private static final double VARIATION = 0.5;

  private final double slipGramForce;
  private final double meanSeconds;
  private final Random random;
  private double sinceSlipSeconds;
  private double untilSlipSeconds;

  public StickSlip(HandSteadiness steadiness, Random random) {
    this.slipGramForce = steadiness.slipGramForce();
    this.meanSeconds = 1 / steadiness.slipsPerSecond();
    this.random = random;
    this.untilSlipSeconds = slipGramForce == 0 ? Double.POSITIVE_INFINITY : next();
  }

  private double next() {
    return meanSeconds * (1 + VARIATION * (2 * random.nextDouble() - 1));
  }

  /** Force beside that of an even motion after a further step, gf; zero in the mean. */
  public double advance(double stepSeconds) {
    sinceSlipSeconds += stepSeconds;
    while (sinceSlipSeconds >= untilSlipSeconds) {
      sinceSlipSeconds -= untilSlipSeconds;
      untilSlipSeconds = next();
    }
    return slipGramForce * (sinceSlipSeconds / untilSlipSeconds - 0.5);
  }
}
