package snick.verdict.burr;

import static snick.verdict.burr.BurrClue.Kind.INSPECTION;
import static snick.verdict.burr.BurrClue.Kind.PAPER;
import static snick.verdict.burr.BurrClue.Kind.SIDES;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snick.journal.Finding;
import snick.journal.Inspection;
import snick.journal.Method;
import snick.journal.Side;
import snick.phrase.Phrase;
import snick.verdict.comparison.Reason;

/**
 * What the inspections of a stage say; a later look by the same method over the same place counts.
 */
final class BurrInspections {
  private static final List<Method> CHEAPEST_FIRST =
      List.of(Method.RAKING_LIGHT, Method.FINGERTIP, Method.COTTON_DRAG);

  private final List<Inspection> latest;

  BurrInspections(List<Inspection> all) {
    List<Inspection> kept = new ArrayList<>();
    for (int i = 0; i < all.size(); i++) {
      Inspection earlier = all.get(i);
      boolean repeated =
          all.subList(i + 1, all.size()).stream().anyMatch(later -> covers(later, earlier));
      if (!repeated) {
        kept.add(earlier);
      }
    }
    this.latest = List.copyOf(kept);
  }

  private static boolean covers(Inspection later, Inspection earlier) {
    return later.look().method() == earlier.look().method()
        && later.side().covers(earlier.side())
        && (later.place().isEmpty() || later.place().equals(earlier.place()));
  }

  List<BurrClue> clues() {
    return List.of(seen(), paper(), sides());
  }

  private BurrClue seen() {
    List<Inspection> looks =
        latest.stream().filter(i -> i.look().method() != Method.THIN_PAPER).toList();
    List<Inspection> burrs = looks.stream().filter(i -> i.finding() == Finding.BURR_SEEN).toList();
    BurrClue.Says says = BurrClue.Says.NOTHING;
    if (!burrs.isEmpty()) {
      says = BurrClue.Says.BURR;
    } else if (noneOn(looks, Side.LEFT) && noneOn(looks, Side.RIGHT)) {
      says = BurrClue.Says.NO_BURR;
    }
    return clue(
        INSPECTION,
        says,
        looks.isEmpty() ? Phrase.of("reason.clue_not_inspected") : told(looks),
        Phrase.of("rule.clue_seen"),
        Phrase.of("unless.clue_seen"));
  }

  private static boolean noneOn(List<Inspection> looks, Side side) {
    return looks.stream().anyMatch(i -> i.side().covers(side) && i.finding() == Finding.NONE)
        && looks.stream().noneMatch(i -> i.side().covers(side) && i.finding() != Finding.NONE);
  }

  /** Whether two methods or more found both sides clean and none found anything else. */
  boolean cleanTwice() {
    long clean = java.util.Arrays.stream(Method.values()).filter(this::clean).count();
    return clean >= 2 && latest.stream().noneMatch(i -> i.finding().pointsToBurr());
  }

  private boolean clean(Method method) {
    List<Inspection> looks = latest.stream().filter(i -> i.look().method() == method).toList();
    return looks.stream().allMatch(i -> i.finding().saysNone())
        && looks.stream().anyMatch(i -> i.side().covers(Side.LEFT))
        && looks.stream().anyMatch(i -> i.side().covers(Side.RIGHT));
  }

  private BurrClue paper() {
    List<Inspection> cuts =
        latest.stream().filter(i -> i.look().method() == Method.THIN_PAPER).toList();
    BurrClue.Says says = BurrClue.Says.NOTHING;
    if (cuts.stream().anyMatch(i -> i.finding().pointsToBurr())) {
      says = BurrClue.Says.BURR;
    } else if (!cuts.isEmpty() && cuts.stream().allMatch(i -> i.finding() == Finding.CLEAN)) {
      says = BurrClue.Says.NO_BURR;
    }
    return clue(
        PAPER,
        says,
        cuts.isEmpty() ? Phrase.of("reason.clue_no_paper") : told(cuts),
        Phrase.of("rule.clue_paper"),
        Phrase.of("unless.clue_paper"));
  }

  private BurrClue sides() {
    Optional<Method> uneven =
        java.util.Arrays.stream(Method.values()).filter(this::sidesDiffer).findFirst();
    return clue(
        SIDES,
        uneven.isPresent() ? BurrClue.Says.BURR : BurrClue.Says.NOTHING,
        uneven
            .map(m -> Phrase.of("reason.clue_sides", "method", Phrase.named("method", m)))
            .orElseGet(() -> Phrase.of("reason.clue_no_sides")),
        Phrase.of("rule.clue_sides"),
        Phrase.of("unless.clue_sides"));
  }

  private boolean sidesDiffer(Method method) {
    return (clean(method, Side.LEFT) && burr(method, Side.RIGHT))
        || (clean(method, Side.RIGHT) && burr(method, Side.LEFT));
  }

  /** Nothing was found on {@code side}, and nobody was unsure. */
  private boolean clean(Method method, Side side) {
    List<Inspection> looks = of(method, side);
    return !looks.isEmpty() && looks.stream().allMatch(i -> i.finding().saysNone());
  }

  private boolean burr(Method method, Side side) {
    return of(method, side).stream().anyMatch(i -> i.finding().pointsToBurr());
  }

  private List<Inspection> of(Method method, Side side) {
    return latest.stream().filter(i -> i.look().method() == method && i.side() == side).toList();
  }

  /** The cheapest check not yet made; common practice, no source. */
  Phrase nextCheck() {
    for (Method method : CHEAPEST_FIRST) {
      for (Side side : List.of(Side.LEFT, Side.RIGHT)) {
        if (latest.stream().noneMatch(i -> i.look().method() == method && i.side().covers(side))) {
          return Phrase.of("next_check." + method.word(), "side", Phrase.named("next_check", side));
        }
      }
      if (method == Method.FINGERTIP
          && latest.stream().noneMatch(i -> i.look().method() == Method.THIN_PAPER)) {
        return Phrase.of("next_check.thin_paper");
      }
    }
    return Phrase.of("next_check.cuts");
  }

  private static Phrase told(List<Inspection> looks) {
    return Phrase.of("reason.clue_looks", "looks", looks.stream().map(Inspection::told).toList());
  }

  static BurrClue clue(
      BurrClue.Kind kind, BurrClue.Says says, Phrase evidence, Phrase rule, Phrase wouldChange) {
    return new BurrClue(
        kind, says, new Reason(evidence, rule, wouldChange, Reason.COMMON_PRACTICE));
  }
}
