package snick.store.record;

import java.util.List;
import java.util.Optional;
import snick.force.budget.DerivedForce;
import snick.force.budget.DerivedForce.Inside;
import snick.force.budget.DerivedForce.Outside;
import snick.force.fit.ForceRange;
import snick.quantity.Attribute;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.quantity.Values;

/**
 * What a calibration makes of a cut's peak.
 *
 * @param estimate force at the break, with its uncertainty; not {@link DerivedForce.Uncalibrated}
 * @param observedMax force of the largest sample
 */
public record CutForce(DerivedForce estimate, Force observedMax) {
  /** What is told of it besides its calibration, followed as {@code CutFigures.ATTRIBUTES} is. */
  public static final List<Attribute<CutForce>> ATTRIBUTES =
      List.of(
          Attribute.truth(
              "in_range",
              "Whether the force lies in the calibrated range",
              f -> f.estimate instanceof Inside),
          Attribute.real(
              "force_n",
              "N",
              "Force at the break: estimate_counts by the calibration",
              f -> f.measured().value().newtons()),
          Attribute.real(
              "u_n",
              "N",
              "Combined standard uncertainty of force_n",
              f -> f.measured().standardUncertainty().newtons()),
          Attribute.some(
              "degrees_of_freedom",
              Attribute.Type.REAL,
              "",
              "Effective degrees of freedom of u_n",
              f ->
                  f.estimate instanceof Inside inside
                      ? Optional.of(inside.degreesOfFreedom())
                      : Optional.empty()),
          Attribute.real(
              "observed_max_n", "N", "Force of the largest sample", f -> f.observedMax.newtons()));

  /** What {@link #ATTRIBUTES} told of a force by a calibration of a range. */
  public static CutForce read(Values told, String calibrationId, ForceRange range) {
    return new CutForce(
        estimate(told, calibrationId, range), Force.ofNewtons(told.real("observed_max_n")));
  }

  /** The same, without the largest sample. */
  public static DerivedForce estimate(Values told, String calibrationId, ForceRange range) {
    MeasuredForce force = MeasuredForce.ofNewtons(told.real("force_n"), told.real("u_n"));
    if (!told.truth("in_range")) {
      return new Outside(calibrationId, force, range);
    }
    double degreesOfFreedom = told.real("degrees_of_freedom");
    if (!(degreesOfFreedom > 0)) {
      throw new IllegalArgumentException(
          "degrees_of_freedom is " + degreesOfFreedom + ", not above 0");
    }
    return new Inside(calibrationId, force, degreesOfFreedom);
  }

  /** Id of the calibration. */
  public String calibrationId() {
    return estimate.calibrationUsed().orElseThrow();
  }

  /** The force at the break. */
  public MeasuredForce measured() {
    return estimate.measured().orElseThrow();
  }
}
