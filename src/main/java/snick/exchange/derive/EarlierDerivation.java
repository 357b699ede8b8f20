package snick.exchange.derive;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snick.store.StoreReader;
import snick.store.record.StoredForce;
import snick.store.record.StoredResult;

/**
 * What was derived from a cut before what stands.
 *
 * @param number number of the result in its cut, from 1
 * @param stands whether the result is the one that stands, with a later force
 * @param result the result
 * @param force a force of it, if it has one
 */
public record EarlierDerivation(
    int number, boolean stands, StoredResult result, Optional<StoredForce> force) {
  /** All of a cut, oldest first. */
  public static List<EarlierDerivation> of(StoreReader store, long cutId) {
    List<EarlierDerivation> found = new ArrayList<>();
    List<StoredResult> results = store.results(cutId);
    List<StoredForce> forces = store.forces(cutId);
    for (int i = 0; i < results.size(); i++) {
      StoredResult result = results.get(i);
      boolean stands = i == results.size() - 1;
      List<StoredForce> own = forces.stream().filter(f -> f.resultId() == result.id()).toList();
      for (StoredForce force : stands && !own.isEmpty() ? own.subList(0, own.size() - 1) : own) {
        found.add(new EarlierDerivation(i + 1, stands, result, Optional.of(force)));
      }
      if (own.isEmpty() && !stands) {
        found.add(new EarlierDerivation(i + 1, false, result, Optional.empty()));
      }
    }
    return found;
  }
}
