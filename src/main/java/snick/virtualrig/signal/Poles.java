package snick.virtualrig.signal;

/**
 * Equal low passes of first order in cascade, as resistor and capacitor make them. Each is exact
 * for an input that stands still within a step. For one thread.
 */
public final class Poles {
  private static final double SETTLED = 1e-9;

  private final double[] levels;
  private final double left;
  private final double meanLeft;

  /**
   * @param poles how many
   * @param timeConstantSteps time constant of each, steps
   */
  public Poles(int poles, double timeConstantSteps) {
    this.levels = new double[poles];
    this.left = StrictMath.exp(-1 / timeConstantSteps);
    this.meanLeft = -timeConstantSteps * StrictMath.expm1(-1 / timeConstantSteps);
  }

  /** Mean of the last pole's output during a step in which the input stands at this level. */
  public double pass(double input) {
    double mean = input;
    for (int i = 0; i < levels.length; i++) {
      double away = levels[i] - mean;
      levels[i] = mean + left * away;
      mean += meanLeft * away;
    }
    return mean;
  }

  /** Whether the output is this level and stays so while the input does. */
  boolean settledAt(double level) {
    for (double each : levels) {
      if (Math.abs(each - level) > SETTLED * Math.max(1, Math.abs(level))) {
        return false;
      }
    }
    return true;
  }
}
