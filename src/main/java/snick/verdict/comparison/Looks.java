package snick.verdict.comparison;

import java.util.OptionalInt;

/**
 * How often the cuts were looked at, and what that does to the error of a verdict.
 *
 * @param planned cuts a group that were planned, if any
 * @param first cuts made in the first group
 * @param second cuts made in the second
 * @param margin whether equivalence was asked for
 */
record Looks(OptionalInt planned, int first, int second, boolean margin) {
  private static final String ONE_LOOK_AFTER_EACH = "16 %";
  private static final String PLATEAU_AFTER_EACH = "42 %";

  Reason reason() {
    if (planned.isEmpty()) {
      return new Reason(
          "no number of cuts was planned, so this counts as the only look",
          "an error of 5 % holds for one look at a number of cuts fixed beforehand; who looks after"
              + " every cut from 3 to 12 and stops at the first difference finds one in "
              + ONE_LOOK_AFTER_EACH
              + " of unchanged edges"
              + (margin ? ", and an equivalence that is none in up to " + PLATEAU_AFTER_EACH : ""),
          "a number of cuts planned before looking: --planned N",
          "Armitage, McPherson and Rowe 1969; shares simulated");
    }
    int plan = planned.getAsInt();
    boolean early = Math.min(first, second) < plan;
    int left = Math.max(0, first - plan) + Math.max(0, second - plan);
    return new Reason(
        early
            ? "an early look: " + first + " and " + second + " of " + plan + " planned cuts"
            : "all "
                + plan
                + " planned cuts of each group are made"
                + (left > 0 ? "; " + left + " made after them are left out" : ""),
        "before the planned number a verdict needs p below 0.001, at it p below 0.05: early looks"
            + " add next to nothing to the error",
        early ? "the cuts that are still planned" : "a new plan, with new cuts",
        "Haybittle 1971; Peto and others 1976");
  }
}
