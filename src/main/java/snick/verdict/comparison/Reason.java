package snick.verdict.comparison;

/**
 * Why a verdict is what it is.
 *
 * @param evidence what was looked at, with its numbers
 * @param rule the rule applied to it, with its limit
 * @param wouldChange what would change the mind
 * @param source where the rule comes from, or {@link #COMMON_PRACTICE}
 */
public record Reason(String evidence, String rule, String wouldChange, String source) {
  /** Source of a rule of the trade for which no published source is known. */
  public static final String COMMON_PRACTICE = "common practice, no source";

  /** All of it in one line. */
  public String text() {
    return evidence
        + ". Rule: "
        + rule
        + " ("
        + source
        + "). What would change it: "
        + wouldChange
        + ".";
  }
}
