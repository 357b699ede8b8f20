package snick.store;

import java.util.List;
import java.util.Optional;
import snick.cut.response.FallBook;
import snick.cut.response.Response;
import snick.quantity.SampleRate;
import snick.store.record.CutSummary;
import snick.store.record.StoredCut;
import snick.store.table.CutTable;
import snick.store.table.ResponseTable;

/** Falls of stored cuts, to learn a rig's response from. */
final class StoredFalls {
  private final CutTable cuts;
  private final ResponseTable responses;

  StoredFalls(CutTable cuts, ResponseTable responses) {
    this.cuts = cuts;
    this.responses = responses;
  }

  FallBook<Long> of(String deviceId, Optional<SampleRate> nominalRate) {
    List<Long> severed = responses.severed(deviceId, nominalRate);
    long lastLearned =
        responses
            .latest(deviceId, nominalRate)
            .flatMap(r -> r.cutIds().stream().max(Long::compare))
            .orElse(0L);
    long learnedAt = severed.stream().filter(id -> id <= lastLearned).count();
    List<Long> latest =
        severed.subList(Math.max(0, severed.size() - FallBook.MOST), severed.size());
    FallBook<Long> book = new FallBook<>((long) severed.size() - latest.size(), learnedAt);
    latest.forEach(id -> add(book, id));
    return book;
  }

  private void add(FallBook<Long> book, long id) {
    CutSummary summary = cuts.summary(id).orElseThrow();
    new StoredCut(summary, cuts.trace(id), Response.unknown())
        .cut()
        .fall()
        .ifPresent(fall -> book.add(id, fall));
  }
}
