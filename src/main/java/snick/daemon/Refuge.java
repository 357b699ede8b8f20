package snick.daemon;

import java.nio.file.Path;
import java.time.Clock;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import snick.cut.Cut;
import snick.store.Store;
import snick.store.record.NewCut;
import snick.store.record.Recording;

/**
 * A new store beside one that was taken away while it was written to: cuts go there in counts.
 * Opened with the first of them. The keeper's thread alone.
 */
final class Refuge implements AutoCloseable {
  private static final String WHY = "the store with the calibrations was taken away";

  private final Path directory;
  private final Clock clock;
  private final Map<Recording, Long> recordings = new HashMap<>();
  private Store store;

  /**
   * @param beside where the store was
   */
  Refuge(Path beside, Clock clock) {
    Path place = beside.toAbsolutePath().normalize();
    this.directory =
        place.resolveSibling(place.getFileName() + "-rescued-" + clock.instant().getEpochSecond());
    this.clock = clock;
  }

  Path directory() {
    return directory;
  }

  /**
   * Stores a cut; its id there.
   *
   * @throws snick.store.database.StoreException if that cannot be done; it can be tried again
   */
  long keep(Recording recording, Work.CutFinished finished) {
    if (store == null) {
      store = Store.open(directory, clock);
    }
    Cut cut = finished.cut();
    long id = recordings.computeIfAbsent(recording, store::startRecording);
    return store.append(NewCut.of(id, finished.occurredAt(), cut).without(Optional.of(WHY)));
  }

  @Override
  public void close() {
    if (store != null) {
      store.close();
    }
  }
}
