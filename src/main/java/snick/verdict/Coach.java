package snick.verdict;

import java.util.List;
import java.util.Optional;
import snick.journal.NextPlace;
import snick.phrase.Phrase;
import snick.verdict.burr.BurrEvidence;
import snick.verdict.burr.BurrVerdict;
import snick.verdict.burr.BurrVerdict.Burr;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.Judge;
import snick.verdict.comparison.MoreCuts;
import snick.verdict.comparison.Progression;
import snick.verdict.statistic.Readings;

/**
 * Says in one line what to do next. First rule that fits: begin a stage; make cuts enough to know
 * the scatter; look for a burr that the evidence leaves open; remove one that it shows; settle an
 * open comparison if a few cuts can; go back if the edge was keener before; stop on a plateau; else
 * go on. Common practice, no source.
 *
 * @param judge margin and rig
 */
public record Coach(Judge judge) {
  private static final int CUTS_TO_BEGIN_WITH = 5;
  private static final int FEW_MORE = 8;
  private static final String PLACE = "where";

  /**
   * One line of advice.
   *
   * @param stages stages so far, in order; the last one runs
   * @param next where the next cut would go
   */
  public Phrase advise(List<StageEvidence> stages, NextPlace next) {
    if (stages.isEmpty()) {
      return Phrase.of("coach.begin");
    }
    StageEvidence running = stages.get(stages.size() - 1);
    int cuts = running.cuts().size();
    if (cuts < CUTS_TO_BEGIN_WITH) {
      String key = cuts == 0 ? "coach.cuts" : "coach.more_cuts";
      return Phrase.count(key, CUTS_TO_BEGIN_WITH - cuts, PLACE, place(next));
    }
    Optional<StageEvidence> before =
        stages.size() > 1 ? Optional.of(stages.get(stages.size() - 2)) : Optional.empty();
    BurrVerdict burr = new BurrEvidence(judge).weigh(running);
    return aboutBurr(burr, running)
        .or(() -> toSettle(before, running, next))
        .or(() -> plateau(stages))
        .orElseGet(() -> Phrase.of("coach.go_on"));
  }

  /** Whether {@code advice} says where the next cut goes. */
  public static boolean saysPlace(Phrase advice) {
    return advice.values().containsKey(PLACE);
  }

  private static Phrase place(NextPlace next) {
    return next instanceof NextPlace.At at
        ? Phrase.of("coach.at", "place", at.place().told())
        : Phrase.of("coach.full");
  }

  private static Optional<Phrase> aboutBurr(BurrVerdict burr, StageEvidence running) {
    if (burr.burr() == Burr.LIKELY) {
      return Optional.of(Phrase.of("coach.remove_burr"));
    }
    boolean looked = !running.inspections().isEmpty();
    return burr.burr() == Burr.POSSIBLE || burr.burr() == Burr.NOT_KNOWN || !looked
        ? Optional.of(burr.nextCheck())
        : Optional.empty();
  }

  private Optional<Phrase> toSettle(
      Optional<StageEvidence> before, StageEvidence running, NextPlace next) {
    Optional<Readings> earlier = before.flatMap(StageEvidence::comparable);
    if (earlier.isEmpty()) {
      return Optional.empty();
    }
    MoreCuts more = judge.compare(earlier.get(), running.comparable().orElseThrow()).moreCuts();
    return more instanceof MoreCuts.InSecond few && few.inSecond() <= FEW_MORE
        ? Optional.of(Phrase.count("coach.settle", few.inSecond(), PLACE, place(next)))
        : Optional.empty();
  }

  private Optional<Phrase> plateau(List<StageEvidence> stages) {
    List<Readings> readings =
        stages.stream().flatMap(stage -> stage.comparable().stream()).toList();
    if (readings.size() < 2) {
      return Optional.empty();
    }
    Progression.Plateau plateau = Progression.plateau(readings, judge);
    if (plateau instanceof Progression.Plateau.KeenerBefore lost) {
      return Optional.of(Phrase.of("coach.keener_before", "best", lost.best()));
    }
    return plateau instanceof Progression.Plateau.Reached reached
        ? Optional.of(Phrase.of("coach.plateau", "since", reached.since()))
        : Optional.empty();
  }
}
