package snick.force.budget;

import snick.force.mass.Distribution;
import snick.quantity.Force;
import snick.quantity.Worded;

/**
 * One source of uncertainty of a force, beside the fit and the peak estimate. Its standard
 * uncertainty at force F is √(absolute² + (relative·F)²), the sensitivity to force being 1.
 *
 * @param source what is uncertain
 * @param distribution assumed distribution
 * @param absolute part that does not depend on the force, standard uncertainty, not negative
 * @param relative part in proportion to the force, standard uncertainty divided by force, 0 to 1
 * @param degreesOfFreedom above 0; infinite if the value is taken as known
 * @param basis where the figure comes from, for people
 */
public record BudgetTerm(
    Source source,
    Distribution distribution,
    Force absolute,
    double relative,
    double degreesOfFreedom,
    String basis) {
  /** The sources that a force on this kind of rig has. */
  public enum Source implements Worded {
    REFERENCE_MASSES,
    GRAVITY,
    AIR_BUOYANCY,
    FIT,
    /** From one loading to the next within a run. */
    REPEATABILITY,
    /** From one run to the next. */
    RUN_TO_RUN,
    REVERSIBILITY,
    ZERO_DRIFT,
    CREEP,
    TEMPERATURE,
    RESOLUTION,
    NOISE,
    TIME_SINCE_CALIBRATION,
    /** Where on the filament the edge presses. */
    PLACE,
    PULL_DIRECTION,
    TILT,
    /** Of the filament over its guides. */
    FRICTION,
    PEAK_ESTIMATE,
    /** Typed in as one figure, not broken down. */
    STATED;
  }

  public BudgetTerm {
    if (!(absolute.newtons() >= 0)) {
      throw new IllegalArgumentException(
          source.word() + ": standard uncertainty " + absolute.newtons() + " N is below 0 N");
    }
    if (!(relative >= 0 && relative <= 1)) {
      throw new IllegalArgumentException(
          source.word() + ": relative standard uncertainty " + relative + " is outside 0 to 1");
    }
    if (!(degreesOfFreedom > 0)) {
      throw new IllegalArgumentException(
          source.word() + ": degrees of freedom " + degreesOfFreedom + " not above 0");
    }
  }

  /** A term in proportion to the force, degrees of freedom infinite. */
  static BudgetTerm relative(
      Source source, Distribution distribution, double relative, String basis) {
    return new BudgetTerm(
        source, distribution, Force.ZERO, relative, Double.POSITIVE_INFINITY, basis);
  }

  /** A term that does not depend on the force, in N, degrees of freedom infinite. */
  static BudgetTerm absolute(
      Source source, Distribution distribution, double newtons, String basis) {
    return new BudgetTerm(
        source, distribution, Force.ofNewtons(newtons), 0, Double.POSITIVE_INFINITY, basis);
  }

  /** Standard uncertainty at {@code newtons} N, in N. */
  public double standardUncertaintyNewtons(double newtons) {
    return Math.hypot(absolute.newtons(), relative * newtons);
  }
}
