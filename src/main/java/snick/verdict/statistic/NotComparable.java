package snick.verdict.statistic;

/**
 * Figures from which no verdict can be drawn. The message gives the value, the limit, the place and
 * the next step.
 */
public final class NotComparable extends IllegalArgumentException {
  private static final long serialVersionUID = 1L;

  /** {@code message} is shown to the person as it stands. */
  public NotComparable(String message) {
    super(message);
  }
}
