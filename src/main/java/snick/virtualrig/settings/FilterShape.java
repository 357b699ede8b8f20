package snick.virtualrig.settings;

/**
 * Form of a converter's filter: low passes of first order in cascade, then equal boxes in cascade.
 * Four boxes of one output period each are the fourth-order form met in bridge amplifiers; one box
 * of four periods is the plain moving mean; poles alone are an amplifier whose output is sampled.
 *
 * @param boxes boxes in cascade, 0 to 5
 * @param periodsEach length of each box in output periods, 1 to 8
 * @param poles low passes in cascade, 0 to 4; at least one if there is no box
 * @param polePeriods time constant of each of them in output periods, 0.05 to 20
 */
public record FilterShape(int boxes, int periodsEach, int poles, double polePeriods) {
  /** Fourth order, four output periods long. */
  public static final FilterShape SINC4 = ofBoxes(4, 1);

  /** Moving mean over four output periods. */
  public static final FilterShape BOX = ofBoxes(1, 4);

  public FilterShape {
    SettingRange.check("boxes of the filter", boxes, 0, 5);
    SettingRange.check("periods of a box", periodsEach, 1, 8);
    SettingRange.check("poles of the filter", poles, boxes == 0 ? 1 : 0, 4);
    SettingRange.check("time constant of a pole, periods,", polePeriods, 0.05, 20);
  }

  /** Boxes alone. */
  public static FilterShape ofBoxes(int boxes, int periodsEach) {
    return new FilterShape(boxes, periodsEach, 0, 1);
  }

  /** Poles alone, of this time constant in output periods. */
  public static FilterShape ofPoles(int poles, double periods) {
    return new FilterShape(0, 1, poles, periods);
  }

  /** Length of the boxes together, output periods. */
  public int boxPeriods() {
    return boxes * periodsEach;
  }

  /** Delay of a ramp, output periods; without poles that of the middle of a step, too. */
  public double delayPeriods() {
    return boxPeriods() / 2.0 + poles * polePeriods;
  }

  /** Gain for a sine of {@code cyclesPerPeriod} cycles in one output period; may be negative. */
  public double gainAt(double cyclesPerPeriod) {
    double angle = StrictMath.PI * cyclesPerPeriod * periodsEach;
    double oneBox = angle == 0 ? 1 : StrictMath.sin(angle) / angle;
    double onePole = 1 / Math.hypot(1, 2 * StrictMath.PI * cyclesPerPeriod * polePeriods);
    double gain = 1;
    for (int pole = 0; pole < poles; pole++) {
      gain *= onePole;
    }
    for (int box = 0; box < boxes; box++) {
      gain *= oneBox;
    }
    return gain;
  }
}
