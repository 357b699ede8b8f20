package snick.view;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import snick.journal.NextPlace;
import snick.json.Json;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.phrase.Words;
import snick.verdict.Coach;
import snick.verdict.burr.BurrClue;
import snick.verdict.burr.BurrEvidence;
import snick.verdict.burr.BurrVerdict;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.Comparison;
import snick.verdict.comparison.GroupFigures;
import snick.verdict.comparison.Judge;
import snick.verdict.comparison.Reason;
import snick.verdict.statistic.Interval;
import snick.verdict.statistic.Readings;

/**
 * Figures of stages, how each compares with the one before, whether a burr is left, and what to do
 * next. Keeps the latest verdicts, for they take some milliseconds each. Used by one thread.
 */
final class StageVerdicts {
  private static final int LEAST_CUTS = 2;

  private final Lately<Pair, Map<String, Object>> judgements = new Lately<>(this::judged);
  private final Lately<Pair, Comparison> comparisons = new Lately<>(StageVerdicts::comparison);
  private final Words words;
  private final Lately<Session, Phrase> advices = new Lately<>(this::advised);

  StageVerdicts(Words words) {
    this.words = words;
  }

  private record Pair(Judge judge, Optional<StageEvidence> before, StageEvidence now) {}

  private record Session(Judge judge, List<StageEvidence> stages, NextPlace next) {}

  /** Members {@code figures}, {@code verdict} and {@code burr} of a stage, as far as there are. */
  Map<String, Object> of(Judge judge, Optional<StageEvidence> before, StageEvidence now) {
    return judgements.of(new Pair(judge, before, now));
  }

  /** What the whole session did: its last stage against its first, of those with cuts enough. */
  Optional<Map<String, Object>> outcome(Judge judge, List<StageEvidence> stages) {
    List<StageEvidence> told = stages.stream().filter(s -> enough(s).isPresent()).toList();
    if (told.size() < 2) {
      return Optional.empty();
    }
    return Optional.of(compare(judge, told.get(0), told.get(told.size() - 1)));
  }

  /** Any two stages. */
  Map<String, Object> compare(Judge judge, StageEvidence first, StageEvidence second) {
    if (first.stage().order() == second.stage().order()) {
      throw new NotAccepted("refused.same_stage", "stage", first.stage().name());
    }
    Comparison comparison = comparisons.of(new Pair(judge, Optional.of(first), second));
    Map<String, Object> object = verdict(comparison);
    object.put("first", named(first, comparison.first()));
    object.put("second", named(second, comparison.second()));
    return object;
  }

  private static Comparison comparison(Pair pair) {
    return pair.judge().compare(readings(pair.before().orElseThrow()), readings(pair.now()));
  }

  private static Readings readings(StageEvidence stage) {
    return enough(stage)
        .orElseThrow(
            () ->
                new NotAccepted(
                    Phrase.of("refused.too_few_counting_cuts")
                        .with("stage", stage.stage().name())
                        .with("n", stage.cuts().size())
                        .with("least", LEAST_CUTS)));
  }

  private static Map<String, Object> named(StageEvidence stage, GroupFigures figures) {
    Map<String, Object> object = figures(figures);
    object.put("stage", stage.stage().name());
    return object;
  }

  /** One line of advice. */
  String advice(Judge judge, List<StageEvidence> stages, NextPlace next) {
    return words.say(advices.of(new Session(judge, stages, next)));
  }

  private Phrase advised(Session session) {
    return new Coach(session.judge()).advise(session.stages(), session.next());
  }

  private Map<String, Object> judged(Pair pair) {
    StageEvidence now = pair.now();
    boolean anything = !now.cuts().isEmpty() || !now.inspections().isEmpty();
    return Json.object(
        "figures", now.readings().map(r -> figures(GroupFigures.of(r, pair.judge().rig()))),
        "verdict",
            pair.before()
                .filter(before -> enough(before).isPresent() && enough(now).isPresent())
                .map(before -> verdict(comparisons.of(pair))),
        "burr",
            anything
                ? Optional.of(burr(new BurrEvidence(pair.judge()).weigh(now)))
                : Optional.empty());
  }

  private static Optional<Readings> enough(StageEvidence stage) {
    return stage.readings().filter(readings -> readings.count() >= LEAST_CUTS);
  }

  private Map<String, Object> burr(BurrVerdict verdict) {
    return Json.object(
        "burr", verdict.burr().word(),
        "next_check", words.say(verdict.nextCheck()),
        "reasons",
            verdict.clues().stream()
                .filter(clue -> clue.says() != BurrClue.Says.NOTHING)
                .map(clue -> reason(clue.reason()))
                .toList(),
        "rule", reason(verdict.rule()));
  }

  private static Map<String, Object> figures(GroupFigures figures) {
    return Json.object(
        "n", figures.n(),
        "mean_gf", figures.meanGf(),
        "sd_gf", figures.sdGf(),
        "ci95_gf", figures.ci95Gf().map(StageVerdicts::ends));
  }

  static List<Double> ends(Interval interval) {
    return List.of(interval.low(), interval.high());
  }

  private Map<String, Object> verdict(Comparison comparison) {
    return Json.object(
        "change", comparison.verdict().word(),
        "difference_gf", comparison.differenceGf(),
        "difference_ci95_gf", comparison.ci95Gf().map(StageVerdicts::ends),
        "p", comparison.decision().p(),
        "more_cuts", comparison.moreCuts().told().map(words::say),
        "reasons", comparison.reasons().stream().map(this::reason).toList());
  }

  private Map<String, Object> reason(Reason reason) {
    return Json.object(
        "says", words.say("report.sentence", "text", reason.evidence()),
        "rule", words.say("report.rule_of", "rule", reason.rule(), "source", reason.source()),
        "would_change", words.say(reason.wouldChange()));
  }

  /** What a phrase says to who reads the page. */
  String said(Phrase phrase) {
    return words.say(phrase);
  }
}
