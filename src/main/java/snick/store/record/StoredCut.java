package snick.store.record;

import snick.cut.Cut;
import snick.cut.Trace;
import snick.cut.response.Response;

/**
 * A stored cut with its trace.
 *
 * @param summary all but the trace
 * @param trace the raw samples, checked against their checksum
 * @param response what its current result was derived with
 */
public record StoredCut(CutSummary summary, Trace trace, Response response) {
  /** Id of the cut. */
  public long id() {
    return summary.id();
  }

  /** The event as its current result sees it. */
  public Cut cut() {
    return new Cut(summary.number(), summary.figures(), trace, response);
  }
}
