package snick.view;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What the person has set once for all, as far as the page needs it.
 *
 * @param marginGf margin for blades without one, gf
 * @param operator alias noted in sessions that are begun on the page
 */
public record Preferences(OptionalDouble marginGf, Optional<String> operator) {
  /** Nothing set. */
  public static final Preferences NONE = new Preferences(OptionalDouble.empty(), Optional.empty());
}
