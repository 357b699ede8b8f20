package snick.verdict.comparison;

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
  record InSecond(int inSecond, String basis) implements MoreCuts {}

  /**
   * Cuts in the second group alone do not settle it.
   *
   * @param perGroup cuts in each group that would
   * @param basis the question that they settle, and how it was reckoned
   */
  record PerGroup(int perGroup, String basis) implements MoreCuts {}

  /**
   * No reasonable number settles it.
   *
   * @param basis why
   */
  record NotWorthIt(String basis) implements MoreCuts {}
}
