package snick.cut;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.Executor;

/**
 * Has forces estimated beside the detection, by an executor of one thread, some cuts at a time. At
 * most about {@value #MOST_SAMPLES} samples wait, and one batch; then the detection waits, too. All
 * cuts are handed on in the caller's thread.
 */
final class EstimationBeside implements Estimation {
  /** Handing over costs as much as a few microseconds of estimation, whatever is handed over. */
  private static final int BATCH_SAMPLES = 1 << 10;

  private static final int MOST_SAMPLES = 1 << 16;

  private final Executor executor;
  private final CutSink sink;
  private final BreakEstimator estimator = new BreakEstimator();
  private final Deque<Batch> away = new ArrayDeque<>();
  private List<Finding> batch = new ArrayList<>();
  private int batchSamples;
  private int awaySamples;

  private record Batch(CompletableFuture<List<Cut>> cuts, int samples) {}

  EstimationBeside(CutSink sink, Executor executor) {
    this.sink = sink;
    this.executor = executor;
  }

  @Override
  public void take(Finding finding) {
    batch.add(finding);
    batchSamples += finding.samples();
    if (batchSamples >= BATCH_SAMPLES) {
      sendAway();
    }
    while (!away.isEmpty() && (awaySamples > MOST_SAMPLES || away.peek().cuts().isDone())) {
      handOnOldest();
    }
  }

  @Override
  public void handOn() {
    sendAway();
    while (!away.isEmpty()) {
      handOnOldest();
    }
  }

  private void sendAway() {
    if (batch.isEmpty()) {
      return;
    }
    List<Finding> sent = batch;
    away.add(new Batch(CompletableFuture.supplyAsync(() -> cuts(sent), executor), batchSamples));
    awaySamples += batchSamples;
    batch = new ArrayList<>();
    batchSamples = 0;
  }

  private List<Cut> cuts(List<Finding> findings) {
    List<Cut> cuts = new ArrayList<>(findings.size());
    for (Finding finding : findings) {
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
