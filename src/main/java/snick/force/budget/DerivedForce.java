package snick.force.budget;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import snick.force.fit.ForceRange;
import snick.phrase.Phrase;
import snick.phrase.Words;
import snick.quantity.MeasuredForce;

/** What a deflection says about a force. A force outside the calibrated range says so. */
public sealed interface DerivedForce {
  /** The force with its uncertainty; empty if uncalibrated. */
  default Optional<MeasuredForce> measured() {
    if (this instanceof Inside inside) {
      return Optional.of(inside.force());
    }
    return this instanceof Outside outside ? Optional.of(outside.force()) : Optional.empty();
  }

  /** Id of the calibration used; empty if uncalibrated. */
  default Optional<String> calibrationUsed() {
    if (this instanceof Inside inside) {
      return Optional.of(inside.calibrationId());
    }
    return this instanceof Outside outside
        ? Optional.of(outside.calibrationId())
        : Optional.empty();
  }

  /**
   * Why there is no force, in English, as it is kept with the cut; empty if there is one, or
   * nothing is known of it.
   */
  default Optional<String> missing() {
    Words words = Words.english();
    return this instanceof Uncalibrated none && !none.reasons().isEmpty()
        ? Optional.of(none.reasons().stream().map(words::say).collect(Collectors.joining("; ")))
        : Optional.empty();
  }

  /**
   * Force inside the calibrated range.
   *
   * @param calibrationId calibration used
   * @param force force and combined standard uncertainty: fit, budget terms and peak
   * @param degreesOfFreedom effective degrees of freedom of that uncertainty, may be infinite
   */
  record Inside(String calibrationId, MeasuredForce force, double degreesOfFreedom)
      implements DerivedForce {}

  /**
   * Force outside the calibrated range, extrapolated along the tangent at the nearest end.
   *
   * @param calibrationId calibration used
   * @param force extrapolated force; its uncertainty knows nothing of what the curve does out there
   * @param range range of the calibration
   */
  record Outside(String calibrationId, MeasuredForce force, ForceRange range)
      implements DerivedForce {}

  /**
   * No force: counts only.
   *
   * @param reasons why, one sentence each, for people
   */
  record Uncalibrated(List<Phrase> reasons) implements DerivedForce {
    public Uncalibrated {
      reasons = List.copyOf(reasons);
    }
  }
}
