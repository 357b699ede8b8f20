package snick.cut;

import java.util.ArrayList;
import java.util.List;
import snick.cut.rest.RestRing;
import snick.sample.Gap;

/** Stretches without samples in the event at hand and in the rest kept before it. */
final class EventGaps {
  private final List<Gap> atRest = new ArrayList<>();
  private final List<Gap> loaded = new ArrayList<>();
  private int evenFrom;

  /** Those of a ring whose newest sample begins the event. Ones shortly before are taken for it. */
  void restart(RestRing ring, int samples, double periodNanos) {
    loaded.clear();
    atRest.clear();
    int unsure = Math.min(samples, 1 + ZeroBefore.leftOut(periodNanos));
    ring.gaps(1, unsure, loaded);
    evenFrom = samples - ring.gaps(unsure, samples, atRest);
  }

  /** One more in the event; beyond {@link RestRing#MOST_GAPS} none is kept. */
  void add(Gap gap) {
    if (loaded.size() < RestRing.MOST_GAPS) {
      loaded.add(gap);
    }
  }

  /** Missing samples while the filament was loaded, or might have been. */
  List<Gap> loaded() {
    return loaded;
  }

  /** Missing samples in the rest before and since, in order. */
  List<Gap> all() {
    List<Gap> all = new ArrayList<>(atRest);
    all.addAll(loaded);
    return all;
  }

  /** Index of the sample after the last gap in the rest before; 0 if there is none. */
  int evenFrom() {
    return evenFrom;
  }
}
