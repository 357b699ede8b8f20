package snick.cli.journal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snick.cli.terminal.Refusal;
import snick.journal.Session;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.store.record.CutSelection;
import snick.verdict.burr.StageEvidence.CutResult;
import snick.verdict.statistic.Readings;

/**
 * Cuts of a reference edge with one filament lot that count and have a force, in the order made.
 *
 * @param blade label of the reference edge
 * @param gramForce their forces, gf
 */
public record ReferenceEdge(String blade, List<Double> gramForce) {
  /** Keeps a copy of the list. */
  public ReferenceEdge {
    gramForce = List.copyOf(gramForce);
  }

  /** Cuts of {@code blade} with {@code lot}; both must be in the journal. */
  public static ReferenceEdge cuts(StoreReader store, String blade, String lot) {
    return of(store, blade, Optional.of(lot));
  }

  /** Cuts of {@code blade}, with one lot or any. */
  public static ReferenceEdge of(StoreReader store, String typed, Optional<String> typedLot) {
    String blade = store.journal().bladeMeant(typed).label();
    Optional<String> lot = typedLot.map(name -> store.journal().lotMeant(name).lot());
    List<Double> gramForce =
        store.journal().sessionsOfBlade(blade).stream()
            .filter(session -> lot.isEmpty() || session.equipment().filamentLot().equals(lot))
            .flatMap(session -> cuts(store, session).stream())
            .toList();
    return new ReferenceEdge(blade, gramForce);
  }

  private static List<Double> cuts(StoreReader store, Session session) {
    List<Double> cuts = new ArrayList<>();
    store.forEachSummary(
        CutSelection.all().inSession(session.name()).counting(),
        cut ->
            SessionEvidence.result(cut)
                .map(CutResult::force)
                .ifPresent(force -> cuts.add(force.gramForce())));
    return cuts;
  }

  /** Their forces, gf. */
  public double[] gramForceInOrder() {
    return gramForce.stream().mapToDouble(Double::doubleValue).toArray();
  }

  /** Their forces under {@code name}. */
  public Readings readings(String name) {
    if (gramForce.isEmpty()) {
      throw Refusal.badInput(
          name + " has no cuts with a force on blade '" + blade + "': make at least 2");
    }
    return Readings.ofGramForce(name, gramForceInOrder());
  }
}
