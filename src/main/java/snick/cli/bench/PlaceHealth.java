package snick.cli.bench;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import snick.cli.terminal.Numbers;
import snick.force.PlaceCheck;
import snick.store.Evidence;
import snick.store.StoreReader;

/** What the last check of the places along the filament found of a rig. */
final class PlaceHealth {
  private static final String CHECK = "place";

  private PlaceHealth() {}

  /** One line; empty if the places of this rig were never checked. */
  static Optional<HealthLine> of(StoreReader store, String deviceId) {
    List<Evidence> checks = store.evidence(deviceId, PlaceCheck.KIND);
    return checks.isEmpty()
        ? Optional.empty()
        : Optional.of(of(checks.get(checks.size() - 1).document()));
  }

  /** The line for a check as it is kept. */
  static HealthLine of(String document) {
    Map<String, Object> kept = read(document);
    double largest = ((Number) kept.get("largest")).doubleValue();
    double limit = ((Number) kept.get("limit")).doubleValue();
    String measured = percent(largest) + " between places";
    String expected = "at most " + percent(limit);
    if (largest <= limit) {
      return HealthLine.pass(CHECK, measured, expected);
    }
    return HealthLine.warn(
        CHECK,
        measured,
        expected,
        "the force depends on where along the filament the edge is pressed",
        "press at one marked place, or let the cell carry the whole frame"
            + " (rig-calibration/cell-to-edge.md); try again: snick verify place PORT");
  }

  private static String percent(double share) {
    return Numbers.fixed(100 * share, 3) + " %";
  }

  private static Map<String, Object> read(String document) {
    try {
      return JSON.std.mapFrom(document);
    } catch (IOException e) {
      throw new UncheckedIOException("a kept check of places cannot be read", e);
    }
  }
}
