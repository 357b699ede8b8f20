package snick.cli.journal;

import java.util.List;
import java.util.Optional;
import snick.cli.terminal.Refusal;
import snick.journal.Session;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.verdict.burr.StageEvidence.CutResult;
import snick.verdict.statistic.Readings;

/**
 * Cuts of a reference edge with one filament lot that count and have a force, in the order made.
 *
 * @param blade label of the reference edge
 * @param cuts the cuts
 */
public record ReferenceEdge(String blade, List<Cut> cuts) {
  /**
   * One cut.
   *
   * @param summary as stored
   * @param gramForce its force, gf
   */
  public record Cut(CutSummary summary, double gramForce) {}

  /** Keeps a copy of the list. */
  public ReferenceEdge {
    cuts = List.copyOf(cuts);
  }

  /** Cuts of {@code blade} with {@code lot}; both must be in the journal. */
  public static ReferenceEdge cuts(StoreReader store, String blade, String lot) {
    return of(store, blade, Optional.of(lot));
  }

  /** Cuts of {@code blade}, with one lot or any. */
  public static ReferenceEdge of(StoreReader store, String typed, Optional<String> typedLot) {
    String blade = store.journal().bladeMeant(typed).label();
    Optional<String> lot = typedLot.map(name -> store.journal().lotMeant(name).lot());
    List<Cut> cuts =
        store.journal().sessionsOfBlade(blade).stream()
            .filter(session -> lot.isEmpty() || session.equipment().filamentLot().equals(lot))
            .flatMap(session -> cuts(store, session).stream())
            .toList();
    return new ReferenceEdge(blade, cuts);
  }

  private static List<Cut> cuts(StoreReader store, Session session) {
    List<Cut> cuts = new java.util.ArrayList<>();
    store.forEachSummary(
        CutSelection.all().inSession(session.name()).counting(),
        cut ->
            SessionEvidence.result(cut)
                .map(CutResult::force)
                .ifPresent(force -> cuts.add(new Cut(cut, force.gramForce()))));
    return cuts;
  }

  /** Their forces under {@code name}. */
  public Readings readings(String name) {
    if (cuts.isEmpty()) {
      throw Refusal.badInput(
          name + " has no cuts with a force on blade '" + blade + "': make at least 2");
    }
    return Readings.ofGramForce(name, cuts.stream().mapToDouble(Cut::gramForce).toArray());
  }
}
