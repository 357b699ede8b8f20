package snick.verdict.burr;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import snick.journal.Method;
import snick.phrase.Phrase;
import snick.verdict.comparison.Judge;
import snick.verdict.comparison.Reason;
import snick.verdict.comparison.Wording;
import snick.verdict.statistic.BinomialInterval;
import snick.verdict.statistic.Interval;

/**
 * How far an inspection method can be believed when it says that there is no burr.
 *
 * <p>A stage in which it said none (or clean), and never anything else, counts only where something
 * else tells whether a burr was there: a later look in the stage by another method, or deburring
 * that cannot have refined the edge: every step to the next stage is edge-trailing or light, and
 * none has a finer grain than the steps before. It was a miss if that look found a burr, or if the
 * force then fell beyond scatter. A fall after a finer step, or one of unknown grain, is a hidden
 * burr or refinement: which, cannot be told. What removes a burr is common practice, no source.
 *
 * @param method the method
 * @param saidNone stages in which it said none and that count
 * @param missed those in which a burr was there: hidden from it
 * @param missedShare exact 95 % interval (Clopper and Pearson) of the share missed; empty if no
 *     stage counts
 * @param unclear stages after which the force fell by deburring or by refinement
 * @param notJudged other stages in which it said none and nothing tells whether it was right
 */
public record CheckTrust(
    Method method,
    int saidNone,
    int missed,
    Optional<Interval> missedShare,
    int unclear,
    int notJudged) {

  /**
   * Trust in each method that was ever used, over all sessions.
   *
   * @param sessions the stages of each session, in order
   */
  public static List<CheckTrust> of(List<List<StageEvidence>> sessions, Judge judge) {
    List<CheckTrust> trust = new ArrayList<>();
    for (Method method : Method.values()) {
      List<Outcome> outcomes = new ArrayList<>();
      for (List<StageEvidence> stages : sessions) {
        for (int i = 0; i < stages.size(); i++) {
          Optional<StageEvidence> next =
              i + 1 < stages.size() ? Optional.of(stages.get(i + 1)) : Optional.empty();
          new SaidNone(method, stages.get(i), next).outcome(judge).ifPresent(outcomes::add);
        }
      }
      if (!outcomes.isEmpty()) {
        trust.add(of(method, outcomes));
      }
    }
    return trust;
  }

  private static CheckTrust of(Method method, List<Outcome> outcomes) {
    int missed = Collections.frequency(outcomes, Outcome.MISSED);
    int counted = missed + Collections.frequency(outcomes, Outcome.RIGHT);
    return new CheckTrust(
        method,
        counted,
        missed,
        counted == 0 ? Optional.empty() : Optional.of(BinomialInterval.of(missed, counted)),
        Collections.frequency(outcomes, Outcome.UNCLEAR),
        Collections.frequency(outcomes, Outcome.NOT_JUDGED));
  }

  /** The finding in words. */
  public Reason reason() {
    Phrase share =
        missedShare
            .map(
                i ->
                    Phrase.of("reason.trust_share")
                        .with("missed", missed)
                        .with("of", saidNone)
                        .with("share", Wording.percent((double) missed / saidNone))
                        .with("low", Wording.percent(i.low()))
                        .with("high", Wording.percent(i.high())))
            .orElseGet(() -> Phrase.of("reason.trust_none"));
    return new Reason(
        Phrase.of("reason.trust")
            .with("method", Phrase.named("method", method))
            .with("share", share)
            .with("unclear", unclear)
            .with("not_judged", notJudged),
        Phrase.of("rule.trust"),
        Phrase.of("unless.trust"),
        Phrase.of("source.trust"));
  }

  /** What became of a none. */
  enum Outcome {
    RIGHT,
    MISSED,
    UNCLEAR,
    NOT_JUDGED
  }
}
