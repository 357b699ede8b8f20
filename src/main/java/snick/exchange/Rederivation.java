package snick.exchange;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import snick.cut.Cut;
import snick.cut.CutDetector;
import snick.cut.DetectorSettings;
import snick.cut.Trace;
import snick.cut.estimate.BreakEstimator;
import snick.cut.response.Response;
import snick.sample.Gap;
import snick.sample.Rail;

/** What this program's detector finds in traces alone. Any number of threads. */
public final class Rederivation {
  private static final DetectorSettings SETTINGS = DetectorSettings.defaults();

  /** Each keeps what it worked out for one rate, for the next trace. */
  private final Queue<BreakEstimator> idle = new ConcurrentLinkedQueue<>();

  /** As {@link #of(Cut, Response)}, with what the stated cut was derived with. */
  public Optional<Cut> of(Cut stated) {
    return of(stated, stated.response());
  }

  /**
   * The event that begins nearest to where {@code stated} does; empty if none is found. A trace may
   * begin in the middle of a loading, but if nothing is found so, it is taken to begin at rest: the
   * rest between loadings in quick succession is too short to prove itself.
   */
  public Optional<Cut> of(Cut stated, Response response) {
    Optional<Cut> found = found(stated, SETTINGS, response);
    return found.isPresent() ? found : found(stated, SETTINGS.beginningAtRest(), response);
  }

  private Optional<Cut> found(Cut stated, DetectorSettings settings, Response response) {
    BreakEstimator estimator = Optional.ofNullable(idle.poll()).orElseGet(BreakEstimator::new);
    List<Cut> found = new ArrayList<>();
    CutDetector detector = new CutDetector(settings, found::add, estimator);
    detector.know(response);
    feed(stated.trace(), detector);
    idle.add(estimator);
    return found.stream()
        .min(Comparator.comparingLong(cut -> Math.abs(cut.onsetNanos() - stated.onsetNanos())));
  }

  private static void feed(Trace trace, CutDetector detector) {
    List<Gap> gaps = trace.gaps();
    int nextGap = 0;
    for (int i = 0; i < trace.size(); i++) {
      while (nextGap < gaps.size() && gaps.get(nextGap).toNanos() <= trace.deviceNanos(i)) {
        detector.gap(gaps.get(nextGap));
        nextGap++;
      }
      if (trace.overrange(i)) {
        detector.overrange(trace.deviceNanos(i), trace.counts(i) > 0 ? Rail.HIGH : Rail.LOW);
      } else {
        detector.sample(trace.deviceNanos(i), trace.counts(i));
      }
    }
    detector.end();
  }
}
