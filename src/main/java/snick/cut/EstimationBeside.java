package snick.cut;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.Executor;
import snick.cut.estimate.BreakEstimator;

/**
 * Has forces estimated beside the detection, by an executor of one thread, some cuts at a time;
 * while that is behind, the caller's thread estimates, too. At most about {@value #MOST_SAMPLES}
 * samples wait, and one batch; then the detection waits. All cuts are handed on in the caller's
 * thread.
 */
final class EstimationBeside implements Estimation {
  /** Handing over costs as much as a few microseconds of estimation, whatever is handed over. */
  private static final int BATCH_SAMPLES = 1 << 12;

  private static final int MOST_SAMPLES = 1 << 16;

  private final Executor executor;
  private final CutSink sink;
  private final BreakEstimator beside = new BreakEstimator();
  private final BreakEstimator own = new BreakEstimator();
  private final Deque<Batch> away = new ArrayDeque<>();
  private List<FoundLoading> batch = new ArrayList<>();
  private int batchSamples;
  private int awaySamples;
  private CompletableFuture<?> sentLast = CompletableFuture.completedFuture(null);
  private CompletableFuture<?> sentBefore = sentLast;

  private record Batch(CompletableFuture<List<Cut>> cuts, int samples) {}

  EstimationBeside(CutSink sink, Executor executor) {
    this.sink = sink;
    this.executor = executor;
  }

  @Override
  public void take(FoundLoading finding) {
    batch.add(finding);
    batchSamples += finding.samples();
    if (batchSamples >= BATCH_SAMPLES) {
      dispatch();
    }
    while (!away.isEmpty() && (awaySamples > MOST_SAMPLES || away.peek().cuts().isDone())) {
      handOnOldest();
    }
  }

  @Override
  public void handOn() {
    if (!batch.isEmpty()) {
      dispatch();
    }
    while (!away.isEmpty()) {
      handOnOldest();
    }
  }

  /** Two batches keep the other thread busy while this one works on a third. */
  private void dispatch() {
    List<FoundLoading> full = batch;
    CompletableFuture<List<Cut>> cuts =
        sentBefore.isDone() ? sendAway(full) : CompletableFuture.completedFuture(cuts(full, own));
    away.add(new Batch(cuts, batchSamples));
    awaySamples += batchSamples;
    batch = new ArrayList<>();
    batchSamples = 0;
  }

  private CompletableFuture<List<Cut>> sendAway(List<FoundLoading> full) {
    CompletableFuture<List<Cut>> cuts =
        CompletableFuture.supplyAsync(() -> cuts(full, beside), executor);
    sentBefore = sentLast;
    sentLast = cuts;
    return cuts;
  }

  private static List<Cut> cuts(List<FoundLoading> findings, BreakEstimator estimator) {
    List<Cut> cuts = new ArrayList<>(findings.size());
    for (FoundLoading finding : findings) {
      cuts.add(finding.cut(estimator));
    }
    return cuts;
  }

  private void handOnOldest() {
    Batch oldest = away.remove();
    awaySamples -= oldest.samples();
    for (Cut cut : oldest.cuts().join()) {
      sink.cut(cut);
    }
  }
}
