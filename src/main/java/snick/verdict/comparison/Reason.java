package snick.verdict.comparison;

import snick.phrase.Phrase;

/**
 * Why a verdict is what it is.
 *
 * @param evidence what was looked at, with its numbers
 * @param rule the rule applied to it, with its limit
 * @param wouldChange what would change the mind
 * @param source where the rule comes from, or {@link #COMMON_PRACTICE}
 */
public record Reason(Phrase evidence, Phrase rule, Phrase wouldChange, Phrase source) {
  /** Source of a rule of the trade for which no published source is known. */
  public static final Phrase COMMON_PRACTICE = Phrase.of("source.common_practice");

  /** All of it in one line. */
  public Phrase text() {
    return Phrase.of(
        "reason.text", "evidence", evidence, "rule", rule, "source", source, "what", wouldChange);
  }
}
