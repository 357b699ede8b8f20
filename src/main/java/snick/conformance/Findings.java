package snick.conformance;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import snick.conformance.Assessment.Grade;

/** Assessments as they are made; one for each condition. */
final class Findings {
  private final Map<Condition, Assessment> made = new EnumMap<>(Condition.class);

  /** The condition is met if {@code met}; a failure found before stays. */
  void judge(Condition condition, boolean met, String detail) {
    Assessment before = made.get(condition);
    if (before == null || before.grade() != Grade.FAILED) {
      Grade grade = met ? Grade.PASSED : Grade.FAILED;
      made.put(condition, new Assessment(condition, grade, detail));
    }
  }

  void notTried(Condition condition, String why) {
    made.putIfAbsent(condition, new Assessment(condition, Grade.NOT_TRIED, why));
  }

  /** Every condition, in the order of their list. */
  List<Assessment> all(String whyOthersWereNotTried) {
    List<Assessment> all = new ArrayList<>();
    for (Condition condition : Condition.values()) {
      notTried(condition, whyOthersWereNotTried);
      all.add(made.get(condition));
    }
    return all;
  }
}
