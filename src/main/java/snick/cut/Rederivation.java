package snick.cut;

import java.util.List;
import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import snick.cut.estimate.BreakEstimator;
import snick.cut.response.Response;
import snick.cut.rest.Before;
import snick.cut.rest.RestRing;
import snick.sample.Gap;

/**
 * Derives cuts again from their traces: the event that was found is gone through once more from
 * what the stream had told before it, so that this version's results come out the same to the last
 * digit. Any number of threads.
 */
public final class Rederivation {
  private static final DetectorSettings SETTINGS = DetectorSettings.defaults();

  /** Each keeps what it worked out for one rate, for the next trace. */
  private final Queue<BreakEstimator> idle = new ConcurrentLinkedQueue<>();

  /** As {@link #of(Cut, Response)}, with what the stated cut was derived with. */
  public Optional<Cut> of(Cut stated) {
    return of(stated, stated.response());
  }

  /**
   * What its trace gives with what is known of the rig; empty if that is no event, or if the trace
   * does not say what came before.
   *
   * @throws IllegalArgumentException if what is stated before the event cannot be
   */
  public Optional<Cut> of(Cut stated, Response response) {
    Trace trace = stated.trace();
    if (trace.before().isEmpty()) {
      return Optional.empty();
    }
    Event event = again(trace, trace.before().get());
    Optional<FoundLoading> finding = new EventAnalysis(SETTINGS).of(event, stated.number());
    finding.ifPresent(f -> f.know(response));
    return finding.map(this::estimated);
  }

  private Cut estimated(FoundLoading finding) {
    BreakEstimator estimator = Optional.ofNullable(idle.poll()).orElseGet(BreakEstimator::new);
    Cut cut = finding.cut(estimator);
    idle.add(estimator);
    return cut;
  }

  private static Event again(Trace trace, Before before) {
    RestRing ring = new RestRing();
    Event event = new Event(SETTINGS);
    List<Gap> gaps = trace.gaps();
    int next = 0;
    for (int i = 0; i < trace.size() && event.step() == Event.Step.GOES_ON; i++) {
      while (next < gaps.size() && gaps.get(next).fromNanos() < trace.deviceNanos(i)) {
        gap(gaps.get(next++), event, ring);
      }
      sample(trace, i, event, ring);
      if (i == before.began()) {
        event.begin(before, ring);
      }
    }
    if (event.step() == Event.Step.GOES_ON) {
      gaps.subList(next, gaps.size()).forEach(event.gaps()::add);
      event.streamEnds();
    }
    return event;
  }

  private static void gap(Gap gap, Event event, RestRing ring) {
    if (event.active()) {
      event.gaps().add(gap);
    } else {
      ring.gap(gap);
    }
  }

  private static void sample(Trace trace, int i, Event event, RestRing ring) {
    if (!event.active()) {
      ring.add(trace.deviceNanos(i), trace.counts(i), trace.overrange(i));
    } else if (trace.overrange(i)) {
      event.overrange(trace.deviceNanos(i), trace.counts(i));
    } else {
      event.sample(trace.deviceNanos(i), trace.counts(i));
    }
  }
}
