package snick.cut;

import java.util.Optional;

/** One event read through: where it began, where it peaked, how it fell. */
final class EventReading {
  final Samples s;
  final ZeroBefore zero;
  final int polarity;
  final double noise;
  final double after;
  final double periodNanos;
  final int onset;
  final int peak;
  final int spikesNearPeak;
  final Optional<Fall> fall;
  private final double band;

  private EventReading(Event event, ZeroBefore zero, double periodNanos, Samples s) {
    this.s = s;
    this.zero = zero;
    this.periodNanos = periodNanos;
    polarity = event.polarity();
    noise = event.noiseCounts();
    band = event.triggerCounts();
    after = polarity * (event.levelAfterCounts() - zero.counts());
    int from = Math.max(0, event.began() - 2);
    int spikes = Spikes.mark(s, noise, from, s.size());
    peak = s.largest(from, s.size());
    onset = onset(event.began());
    spikesNearPeak =
        spikes == 0 ? 0 : unusable(Math.max(0, peak - 8), Math.min(s.size(), peak + 8));
    fall = new FallLocator(s, after).find(peak, s.size());
  }

  static EventReading of(Event event, double periodNanos) {
    ZeroBefore zero = ZeroBefore.of(event, periodNanos);
    Samples s =
        Samples.of(
            event.log(), zero.counts(), event.polarity(), periodNanos, !event.gaps().isEmpty());
    return new EventReading(event, zero, periodNanos, s);
  }

  private int unusable(int from, int to) {
    int n = 0;
    for (int i = from; i < to; i++) {
      n += s.usable[i] ? 0 : 1;
    }
    return n;
  }

  /** Back from the sample that began the event to the last one within two noise widths of zero. */
  private int onset(int began) {
    int i = Math.min(began, peak);
    while (i > 0 && !(s.usable[i] && s.x[i] < 2 * noise)) {
      i--;
    }
    return i;
  }

  /** Largest reading above zero, counts. */
  double height() {
    return s.x[peak];
  }

  double meanSlopeCountsPerPeriod() {
    double time = s.time[peak] - s.time[onset];
    return time > 0 ? height() / time : 0;
  }

  /** How far the reading went below zero after the fall, spikes left out, counts. */
  double reboundCounts() {
    int from = fall.map(Fall::bottom).orElse(s.size());
    double lowest = 0;
    for (int i = from; i < s.size(); i++) {
      lowest = s.usable[i] ? Math.min(lowest, s.x[i]) : lowest;
    }
    return -lowest;
  }

  /** Whether the reading rose at once, like a knock. */
  boolean impulsive() {
    return peak - onset < 2;
  }

  /** Times the reading sank by more than noise and rose again before the peak. */
  int dips() {
    int dips = 0;
    double high = 0;
    double low = 0;
    double needed = Math.max(band, 0.01 * height());
    boolean down = false;
    for (int i = onset; i <= peak; i++) {
      if (!s.usable[i]) {
        continue;
      }
      if (!down && s.x[i] < high - needed) {
        down = true;
        low = s.x[i];
      }
      low = down ? Math.min(low, s.x[i]) : low;
      if (down && s.x[i] > low + needed) {
        down = false;
        dips++;
        high = s.x[i];
      }
      high = down ? high : Math.max(high, s.x[i]);
    }
    return dips;
  }
}
