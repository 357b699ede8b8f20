package snick.cli.recorder;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.Queue;
import snick.cut.Trace;
import snick.frame.StreamDecoder;
import snick.quantity.SampleRate;
import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleSink;
import snick.sample.SampleStream;
import snick.store.StoreReader;
import snick.store.record.CutSelection;
import snick.virtualrig.FaultyScript;
import snick.virtualrig.Rendering;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Arrivals;

/**
 * Lets a virtual rig send all it sent once more, without a port, and looks for the stored traces in
 * it, sample for sample.
 */
final class SentAgain implements SampleSink {
  private final StoreReader store;
  private final Iterator<Long> cuts;
  private final Queue<Search> begun = new ArrayDeque<>();
  private Optional<Search> next;
  private int found;

  /** A trace, and how many of its samples have come. */
  private static final class Search {
    private final Trace trace;
    private int come;

    private Search(Trace trace) {
      this.trace = trace;
    }

    private boolean begins(long deviceNanos) {
      return trace.deviceNanos(0) <= deviceNanos;
    }

    /** Whether this sample is the next one of the trace. */
    private boolean takes(long deviceNanos, int counts) {
      boolean same = trace.deviceNanos(come) == deviceNanos && trace.counts(come) == counts;
      come += same ? 1 : 0;
      return same;
    }

    private boolean whole() {
      return come == trace.size();
    }
  }

  SentAgain(StoreReader store, String device) {
    this.store = store;
    List<Long> ids = new ArrayList<>();
    store.forEachSummary(
        CutSelection.all(),
        cut -> {
          if (store
              .recording(cut.recordingId())
              .orElseThrow()
              .recording()
              .deviceId()
              .equals(device)) {
            ids.add(cut.id());
          }
        });
    this.cuts = ids.iterator();
    this.next = following();
  }

  private Optional<Search> following() {
    return cuts.hasNext()
        ? store.cut(cuts.next()).map(cut -> new Search(cut.trace()))
        : Optional.empty();
  }

  void play(VirtualRig rig, FaultyScript script) {
    SampleStream stream = new SampleStream(new SampleRate(80), this);
    StreamDecoder decoder = StreamDecoder.ofAnyForm(StreamDecoder.Start.AT_BEGINNING);
    Arrivals arrivals = (nanos, bytes, length) -> decoder.accept(bytes, 0, length, stream);
    new Rendering(rig, arrivals, truth -> {}).play(script);
  }

  /** Traces of which every sample came, in order, at its time. */
  int tracesFound() {
    return found;
  }

  @Override
  public void sample(long deviceNanos, int counts) {
    while (next.filter(search -> search.begins(deviceNanos)).isPresent()) {
      begun.add(next.get());
      next = following();
    }
    for (Iterator<Search> all = begun.iterator(); all.hasNext(); ) {
      Search search = all.next();
      boolean goesOn = search.takes(deviceNanos, counts);
      if (goesOn && search.whole()) {
        found++;
      }
      if (!goesOn || search.whole()) {
        all.remove();
      }
    }
  }

  @Override
  public void overrange(long deviceNanos, Rail rail) {}

  @Override
  public void gap(Gap gap) {}

  @Override
  public void end() {}
}
