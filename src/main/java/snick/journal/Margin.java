package snick.journal;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The largest difference in force that does not matter to the person, and who said so.
 *
 * @param gramForce gf, above 0
 * @param from where it is from, for people
 */
public record Margin(double gramForce, String from) {
  /**
   * The margin that holds for a blade: as typed, else the blade's own, else the usual one.
   *
   * @param typed gf; empty if none was typed
   * @param usual gf, of the settings; empty if none is set
   */
  public static Optional<Margin> of(OptionalDouble typed, Blade blade, OptionalDouble usual) {
    return of(typed, "as typed")
        .or(() -> of(blade.marginGf(), "of blade " + blade.label()))
        .or(() -> usual(usual));
  }

  /** As typed, else the usual one, where there is no blade. */
  public static Optional<Margin> of(OptionalDouble typed, OptionalDouble usual) {
    return of(typed, "as typed").or(() -> usual(usual));
  }

  private static Optional<Margin> usual(OptionalDouble usual) {
    return of(usual, "set for all blades");
  }

  private static Optional<Margin> of(OptionalDouble gramForce, String from) {
    return gramForce.isPresent()
        ? Optional.of(new Margin(gramForce.getAsDouble(), from))
        : Optional.empty();
  }
}
