package snick.daemon;

import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicReferenceArray;
import snick.cut.Cut;
import snick.cut.response.FallBook;
import snick.cut.response.Response;
import snick.store.Store;
import snick.store.record.Recording;
import snick.store.record.StoredResponse;

/**
 * What is known of each rig's response: learned by the keeper from the cuts that it has stored, and
 * kept before a reader is told. The keeper's thread, but for {@link #of}.
 */
final class RigResponses {
  private final Store store;
  private final Clock clock;
  private final AtomicReferenceArray<Response> known;
  private final List<FallBook<Long>> books = new ArrayList<>();

  RigResponses(int rigs, Store store, Clock clock) {
    this.store = store;
    this.clock = clock;
    known = new AtomicReferenceArray<>(rigs);
    for (int i = 0; i < rigs; i++) {
      books.add(new FallBook<>());
      known.set(i, Response.unknown());
    }
  }

  /** What is known of a rig now; any thread. */
  Response of(int rig) {
    return known.get(rig);
  }

  /** Goes on with what the store knows of the rig of a recording that begins. */
  void begin(int rig, Recording recording) {
    books.set(rig, store.falls(recording.deviceId(), recording.nominalRate()));
    known.set(
        rig,
        store
            .currentResponse(recording.deviceId(), recording.nominalRate())
            .map(StoredResponse::response)
            .orElse(Response.unknown()));
  }

  /** Learns from a cut that is stored, when it is time. */
  void kept(int rig, Recording recording, long cutId, Cut cut) {
    FallBook<Long> book = books.get(rig);
    cut.fall().ifPresent(fall -> book.add(cutId, fall));
    if (book.due()) {
      FallBook.Learned<Long> learned = book.learn();
      store.add(
          new StoredResponse(
              recording.deviceId(),
              recording.nominalRate(),
              clock.instant(),
              learned.response(),
              learned.evidence()));
      known.set(rig, learned.response());
    }
  }
}
