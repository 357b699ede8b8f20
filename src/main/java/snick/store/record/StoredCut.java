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
    StoredResult result = summary.result();
    return new Cut(
        summary.number(),
        result.outcome(),
        result.polarity(),
        result.onsetNanos(),
        result.breakNanos(),
        result.peak(),
        result.shape(),
        result.rest(),
        result.flags(),
        trace,
        response);
  }
}
