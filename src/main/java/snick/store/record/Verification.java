package snick.store.record;

import java.time.Instant;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;

/**
 * One check mass, put on before a session.
 *
 * @param deviceId rig that was checked
 * @param calibrationId calibration that was checked, in the store
 * @param at when
 * @param known force of the mass
 * @param shown force that the rig showed
 * @param limit largest difference that counts as within limits, not negative
 * @param document readings and remarks as its maker wrote them down; may be empty
 */
public record Verification(
    String deviceId,
    String calibrationId,
    Instant at,
    MeasuredForce known,
    MeasuredForce shown,
    Force limit,
    String document) {
  public Verification {
    if (!(limit.newtons() >= 0)) {
      throw new IllegalArgumentException("limit " + limit.newtons() + " N is below 0 N");
    }
  }

  /** Whether the rig showed the mass within the limit. */
  public boolean withinLimit() {
    return Math.abs(shown.value().newtons() - known.value().newtons()) <= limit.newtons();
  }
}
