package snick.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snick.cut.Trace;
import snick.cut.response.Learner;
import snick.cut.response.Response;
import snick.cut.response.SeenFall;
import snick.store.StoreReader;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.store.record.StoredCut;

/**
 * What the falls of a rig's last cuts say of its response.
 *
 * @param deviceId the rig
 * @param samplesPerSecond the rate at which it was last recorded
 * @param response what they say; unknown if they are too few
 */
public record RecentFalls(String deviceId, double samplesPerSecond, Response response) {
  /** Cuts looked through, newest first: an evening's. */
  private static final int MOST_CUTS = 200;

  /** Falls learned from: more change little. */
  private static final int MOST_FALLS = 40;

  /** Rates that differ by less are the same setting. */
  private static final double SAME_RATE = 0.02;

  /**
   * Of the rig that cut last.
   *
   * @param device only of this one
   * @return empty if no cut of it is stored
   */
  public static Optional<RecentFalls> of(StoreReader store, Optional<String> device) {
    List<SeenFall> falls = new ArrayList<>();
    Optional<String> wanted = device;
    double hertz = 0;
    for (CutSummary summary : store.latest(CutSelection.all(), MOST_CUTS)) {
      String id = store.recording(summary.recordingId()).orElseThrow().recording().deviceId();
      if (falls.size() < MOST_FALLS && wanted.map(id::equals).orElse(true)) {
        wanted = Optional.of(id);
        StoredCut cut = store.cut(summary.id()).orElseThrow();
        double its = samplesPerSecond(cut.trace());
        hertz = hertz == 0 ? its : hertz;
        if (Math.abs(its / hertz - 1) < SAME_RATE) {
          cut.cut().fall().ifPresent(falls::add);
        }
      }
    }
    double rate = hertz;
    return rate == 0
        ? Optional.empty()
        : wanted.map(id -> new RecentFalls(id, rate, Learner.of(falls)));
  }

  private static double samplesPerSecond(Trace trace) {
    int last = trace.size() - 1;
    return last < 1 ? 0 : 1e9 * last / (trace.deviceNanos(last) - trace.deviceNanos(0));
  }
}
