package snick.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snick.journal.EdgeDirection;
import snick.journal.Finding;
import snick.journal.Inspection;
import snick.journal.Method;
import snick.journal.Pressure;
import snick.journal.SharpeningStep;

/**
 * How far an inspection method can be believed when it says that there is no burr.
 *
 * <p>A stage counts once for a method that said none (or clean) in it and never anything else, if
 * the next stage came by deburring alone: every step noted is edge-trailing or light. It was a miss
 * if the next stage is {@code lower}. Which step removes a burr is common practice, no source.
 *
 * @param method the method
 * @param saidNone stages in which it said none and deburring followed
 * @param missed those after which the force fell beyond scatter: a hidden burr
 * @param missedShare exact 95 % interval (Clopper and Pearson) of the share missed; empty if no
 *     stage counts
 * @param notJudged stages in which it said none but no deburring with comparable cuts followed
 */
public record CheckTrust(
    Method method, int saidNone, int missed, Optional<Interval> missedShare, int notJudged) {

  /**
   * Trust in each method that was ever used, over all sessions.
   *
   * @param sessions the stages of each session, in order
   */
  public static List<CheckTrust> of(List<List<StageEvidence>> sessions, Judge judge) {
    List<CheckTrust> trust = new ArrayList<>();
    for (Method method : Method.values()) {
      Tally tally = new Tally(method, judge);
      sessions.forEach(tally::count);
      if (tally.saidNone + tally.notJudged > 0) {
        trust.add(tally.trust());
      }
    }
    return trust;
  }

  /** The finding in words. */
  public Reason reason() {
    String share =
        missedShare
            .map(
                i ->
                    missed
                        + " of "
                        + saidNone
                        + " times the force then fell beyond scatter: "
                        + Wording.percent((double) missed / saidNone)
                        + " missed, 95 % interval "
                        + Wording.percent(i.low())
                        + " to "
                        + Wording.percent(i.high()))
            .orElse("no stage could be judged");
    return new Reason(
        method.plain() + " said none: " + share + "; " + notJudged + " more not judged",
        "a miss is a none followed by deburring alone that lowered the force",
        "more sessions with cuts before and after deburring",
        "interval: Clopper and Pearson 1934; which step deburrs: " + Reason.COMMON_PRACTICE);
  }

  /** Counts for one method. */
  private static final class Tally {
    private final Method method;
    private final Judge judge;
    private int saidNone;
    private int missed;
    private int notJudged;

    Tally(Method method, Judge judge) {
      this.method = method;
      this.judge = judge;
    }

    void count(List<StageEvidence> stages) {
      for (int i = 0; i < stages.size(); i++) {
        if (saidNoneIn(stages.get(i))) {
          Optional<StageEvidence> next =
              i + 1 < stages.size() ? Optional.of(stages.get(i + 1)) : Optional.empty();
          count(stages.get(i), next.filter(Tally::cameByDeburring));
        }
      }
    }

    private void count(StageEvidence stage, Optional<StageEvidence> deburred) {
      Optional<Readings> before = stage.comparable();
      Optional<Readings> after = deburred.flatMap(StageEvidence::comparable);
      if (before.isEmpty() || after.isEmpty()) {
        notJudged++;
      } else {
        saidNone++;
        missed += judge.verdict(before.get(), after.get()) == Change.LOWER ? 1 : 0;
      }
    }

    private boolean saidNoneIn(StageEvidence stage) {
      List<Finding> findings =
          stage.inspections().stream()
              .filter(i -> i.method() == method)
              .map(Inspection::finding)
              .toList();
      return !findings.isEmpty() && findings.stream().allMatch(Finding::saysNone);
    }

    private static boolean cameByDeburring(StageEvidence stage) {
      return !stage.steps().isEmpty() && stage.steps().stream().allMatch(Tally::deburrs);
    }

    private static boolean deburrs(SharpeningStep step) {
      boolean trailing = step.direction().filter(d -> d == EdgeDirection.EDGE_TRAILING).isPresent();
      boolean light =
          step.pressure().filter(p -> p == Pressure.LIGHT || p == Pressure.VERY_LIGHT).isPresent();
      return trailing || light;
    }

    CheckTrust trust() {
      return new CheckTrust(
          method,
          saidNone,
          missed,
          saidNone == 0 ? Optional.empty() : Optional.of(BinomialInterval.of(missed, saidNone)),
          notJudged);
    }
  }
}
