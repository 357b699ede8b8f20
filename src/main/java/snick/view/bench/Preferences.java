package snick.view.bench;

import java.util.Optional;
import java.util.OptionalDouble;
import snick.phrase.Words;

/**
 * What the person has set once for all, as far as the page needs it.
 *
 * @param marginGf margin for blades without one, gf
 * @param operator alias noted in sessions that are begun on the page
 * @param licence of packages that are exported
 * @param latitudeDegrees where the rig stands, south negative
 * @param heightMetres above sea level
 * @param words the language of the page
 */
public record Preferences(
    OptionalDouble marginGf,
    Optional<String> operator,
    Optional<String> licence,
    OptionalDouble latitudeDegrees,
    OptionalDouble heightMetres,
    Words words) {
  /** Nothing set. */
  public static final Preferences NONE =
      new Preferences(
          OptionalDouble.empty(),
          Optional.empty(),
          Optional.empty(),
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          Words.english());
}
