package snick.verdict.comparison;

import java.util.Optional;
import snick.phrase.Phrase;

/** How many more cuts would settle an open comparison. */
public sealed interface MoreCuts {
  /** Nothing is open. */
  record Settled() implements MoreCuts {}

  /**
   * More cuts in the second group are enough; the first stays as it is.
   *
   * @param inSecond further cuts in the second group, 1 or more
   * @param basis the question that they settle, and how it was reckoned
   */
  record InSecond(int inSecond, Phrase basis) implements MoreCuts {}

  /**
   * Cuts in the second group alone do not settle it.
   *
   * @param perGroup cuts in each group that would
   * @param basis the question that they settle, and how it was reckoned
   */
  record PerGroup(int perGroup, Phrase basis) implements MoreCuts {}

  /**
   * No reasonable number settles it.
   *
   * @param basis why
   */
  record NotWorthIt(Phrase basis) implements MoreCuts {}

  /** What to do, and why; empty if nothing is open. */
  default Optional<Phrase> told() {
    if (this instanceof InSecond more) {
      return Optional.of(Phrase.count("more.in_second", more.inSecond(), "basis", more.basis()));
    }
    if (this instanceof PerGroup each) {
      return Optional.of(Phrase.of("more.in_each", "n", each.perGroup(), "basis", each.basis()));
    }
    return this instanceof NotWorthIt no ? Optional.of(no.basis()) : Optional.empty();
  }
}
