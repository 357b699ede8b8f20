package snick.cli.bench;

import java.util.Locale;
import java.util.Optional;
import snick.store.KeptPlace;

/** Whether a rig reads the same wherever on the filament the edge presses, by the check kept. */
final class PlaceHealth {
  private static final String CHECK = "place";

  private PlaceHealth() {}

  static HealthLine of(Optional<KeptPlace> kept) {
    if (kept.isEmpty()) {
      return HealthLine.unknown(
          CHECK,
          "whether the reading depends on where the edge presses was never checked",
          "hang a mass at three places: snick verify place");
    }
    KeptPlace place = kept.get();
    String measured = String.format(Locale.ROOT, "%.2f %% by place", 100 * place.largest());
    String expected = String.format(Locale.ROOT, "at most %.2f %%", 100 * place.limit());
    return place.largest() <= place.limit()
        ? HealthLine.pass(CHECK, measured, expected)
        : HealthLine.warn(
            CHECK,
            measured,
            expected,
            "the reading depends on where on the filament the edge presses, so that forces at other"
                + " places are not the calibrated ones",
            "let the cell carry the whole filament frame (rig-calibration/cell-to-edge.md), then"
                + " check again: snick verify place");
  }
}
