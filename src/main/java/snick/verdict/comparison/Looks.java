package snick.verdict.comparison;

import java.util.OptionalInt;
import snick.phrase.Phrase;

/**
 * How often the cuts were looked at, and what that does to the error of a verdict.
 *
 * @param planned cuts a group that were planned, if any
 * @param first cuts made in the first group
 * @param second cuts made in the second
 * @param margin whether equivalence was asked for
 */
record Looks(OptionalInt planned, int first, int second, boolean margin) {
  Reason reason() {
    return planned.isPresent() ? asPlanned(planned.getAsInt()) : onlyLook();
  }

  private Reason onlyLook() {
    return new Reason(
        Phrase.of("reason.only_look"),
        Phrase.of(margin ? "rule.only_look_margin" : "rule.only_look"),
        Phrase.of("unless.only_look"),
        Phrase.of("source.only_look"));
  }

  private Reason asPlanned(int plan) {
    boolean early = Math.min(first, second) < plan;
    int left = Math.max(0, first - plan) + Math.max(0, second - plan);
    Phrase done =
        left > 0
            ? Phrase.of("reason.planned_and_more", "n", plan, "left", left)
            : Phrase.of("reason.planned", "n", plan);
    return new Reason(
        early ? Phrase.of("reason.early_look", "first", first, "second", second, "n", plan) : done,
        Phrase.of("rule.planned"),
        Phrase.of(early ? "unless.early_look" : "unless.planned"),
        Phrase.of("source.planned"));
  }
}
