package snick.virtualrig;

/**
 * Form of a converter's linear-phase filter: equal boxes in cascade. Four boxes of one output
 * period each are the fourth-order form met in bridge amplifiers; one box of four periods is the
 * plain moving mean.
 *
 * @param boxes boxes in cascade, 1 to 5
 * @param periodsEach length of each box in output periods, 1 to 8
 */
public record FilterShape(int boxes, int periodsEach) {
  /** Fourth order, four output periods long. */
  public static final FilterShape SINC4 = new FilterShape(4, 1);

  /** Moving mean over four output periods. */
  public static final FilterShape BOX = new FilterShape(1, 4);

  public FilterShape {
    if (boxes < 1 || boxes > 5 || periodsEach < 1 || periodsEach > 8) {
      throw new IllegalArgumentException(
          "filter of " + boxes + " boxes of " + periodsEach + " periods; 1 to 5 of 1 to 8 allowed");
    }
  }

  /** Length of the whole filter, output periods. */
  public int lengthPeriods() {
    return boxes * periodsEach;
  }

  /** Delay of a ramp, and of the middle of a step, output periods. */
  public double delayPeriods() {
    return lengthPeriods() / 2.0;
  }

  /** Gain for a sine of {@code cyclesPerPeriod} cycles in one output period; may be negative. */
  double gainAt(double cyclesPerPeriod) {
    double angle = StrictMath.PI * cyclesPerPeriod * periodsEach;
    double oneBox = angle == 0 ? 1 : StrictMath.sin(angle) / angle;
    double gain = 1;
    for (int box = 0; box < boxes; box++) {
      gain *= oneBox;
    }
    return gain;
  }
}
