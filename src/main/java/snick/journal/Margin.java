package snick.journal;

import java.util.Optional;
import java.util.OptionalDouble;
import snick.phrase.Phrase;

/**
 * The largest difference in force that does not matter to the person, and who said so.
 *
 * @param gramForce gf, above 0
 * @param from where it is from
 */
public record Margin(double gramForce, Phrase from) {
  private static final Phrase TYPED = Phrase.of("margin_from.typed");

  /**
   * The margin that holds for a blade: as typed, else the blade's own, else the usual one.
   *
   * @param typed gf; empty if none was typed
   * @param usual gf, of the settings; empty if none is set
   */
  public static Optional<Margin> of(OptionalDouble typed, Blade blade, OptionalDouble usual) {
    return of(typed, TYPED)
        .or(() -> of(blade.marginGf(), Phrase.of("margin_from.blade", "blade", blade.label())))
        .or(() -> usual(usual));
  }

  /** As typed, else the usual one, where there is no blade. */
  public static Optional<Margin> of(OptionalDouble typed, OptionalDouble usual) {
    return of(typed, TYPED).or(() -> usual(usual));
  }

  private static Optional<Margin> usual(OptionalDouble usual) {
    return of(usual, Phrase.of("margin_from.usual"));
  }

  private static Optional<Margin> of(OptionalDouble gramForce, Phrase from) {
    return gramForce.isPresent()
        ? Optional.of(new Margin(gramForce.getAsDouble(), from))
        : Optional.empty();
  }
}
