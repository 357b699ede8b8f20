package snick.cut;

import java.util.Optional;
import snick.cut.rest.Before;
import snick.cut.rest.SampleLog;

/**
 * Reading at rest before an event, from the rest kept before it. The newest part is left out, for
 * loading may have begun there below the level that begins an event. If the reading crept, the part
 * is taken whose level the reading fell back to.
 */
final class ZeroBefore {
  // Set by hand; half and twice as much of each finds the same cuts with the same errors, one other
  // event aside, on 20 random rigs of 25 cuts (seeds 20040 to 20059), after rests of 1.5 to 2.5 and
  // of 0.35 to 0.5 s.

  private static final double LEFT_OUT_NANOS = 100e6;
  private static final int LEFT_OUT_LEAST = 6;
  private static final double PART_NANOS = 700e6;
  private static final int PART_LEAST = 8;

  /** Standard uncertainty of the level after a fall, noises: some twenty readings, and a tail. */
  private static final double AFTER_NOISES = 0.4;

  /** A level after farther off than so many of its doubts may be a load that remains. */
  private static final double OPEN_DOUBTS = 2;

  /** Standard uncertainty of a level of rest that no reading of its own tells, noises. */
  private static final double HELD_NOISES = 0.5;

  /** One reading in so many is left out at each end of a mean. */
  private static final int TRIMMED_PART = 4;

  private static final double CREPT_NOISES = 1;
  private static final double CREPT_DOUBT_NOISES = 1.5;

  private final double counts;
  private final double uncertaintyCounts;
  private final boolean crept;
  private final int restsUntil;

  private ZeroBefore(double counts, double uncertaintyCounts, boolean crept, int restsUntil) {
    this.counts = counts;
    this.uncertaintyCounts = uncertaintyCounts;
    this.crept = crept;
    this.restsUntil = restsUntil;
  }

  static ZeroBefore of(Event event, double periodNanos) {
    SampleLog log = event.log();
    Optional<ZeroBefore> moved = heldLevel(event, periodNanos);
    if (moved.isPresent()) {
      return moved.get();
    }
    if (event.before().rest().sure() && event.fallen()) {
      return carried(event);
    }
    int leftOut = leftOut(periodNanos);
    int part = (int) Math.max(PART_LEAST, PART_NANOS / periodNanos);
    int to = Math.max(0, event.began() - leftOut);
    int from = Math.max(0, to - part);
    double noise = event.before().rest().noiseCounts();
    if (to - from < PART_LEAST) {
      return new ZeroBefore(event.before().rest().levelCounts(), HELD_NOISES * noise, false, 0);
    }
    double late = trimmedMean(log, from, to);
    double early = trimmedMean(log, 0, Math.min(to, part));
    boolean crept = Math.abs(late - early) > CREPT_NOISES * noise;
    double after = event.levelAfterCounts();
    boolean fellBackToEarly = event.fallen() && Math.abs(early - after) < Math.abs(late - after);
    double zero = crept && fellBackToEarly ? early : late;
    if (!(Math.abs(zero - event.before().rest().levelCounts()) < event.before().rest().bandCounts())
        && !crept) {
      return new ZeroBefore(event.before().rest().levelCounts(), HELD_NOISES * noise, true, 0);
    }
    double doubt = crept ? CREPT_DOUBT_NOISES * noise : noise / Math.sqrt(to - from);
    return new ZeroBefore(zero, doubt, crept, 0);
  }

  /**
   * The zero followed from rest to rest, carried to the fall; the rest after counts as well, by a
   * smoothing step (Rauch, Tung and Striebel 1965, from memory). If that lies far from where it was
   * to be expected, the zero drifted otherwise or some load remains: then it may be anywhere
   * between. A level that may be a remainder, or of a ring, is doubted by as much as it lies off.
   */
  private static ZeroBefore carried(Event event) {
    Before.Zero z = event.before().zero();
    SampleLog log = event.log();
    double noise = event.before().rest().noiseCounts();
    long fell = log.nanos(event.fallenAt());
    long end = log.nanos(log.size() - 1);
    double zero = z.countsAt(fell);
    double variance = z.covarianceCounts2(fell, fell);
    double off = event.levelAfterCounts() - z.countsAt(end);
    double remainder = event.settled() ? 0 : Math.abs(off);
    double doubt = Math.hypot(AFTER_NOISES * noise, remainder);
    double spread = z.covarianceCounts2(end, end) + doubt * doubt;
    double gain = z.covarianceCounts2(fell, end) / spread;
    boolean open = Math.abs(off) > OPEN_DOUBTS * Math.sqrt(spread);
    zero += (open ? 0.5 : 1) * gain * off;
    variance += open ? square(gain * off) / 12 : -gain * z.covarianceCounts2(fell, end);
    double u = Math.sqrt(Math.max(0, variance));
    return new ZeroBefore(zero, u, u > noise, 0);
  }

  private static double square(double x) {
    return x * x;
  }

  /** How many readings before the one that begins an event may be loaded already. */
  static int leftOut(double periodNanos) {
    return (int) Math.max(LEFT_OUT_LEAST, LEFT_OUT_NANOS / periodNanos);
  }

  /**
   * If the reading fell back to another level than it began at and had stood at that level before
   * the loading, the level had moved before and is the zero. If nothing was known of the rest
   * before, the level after is taken.
   */
  private static Optional<ZeroBefore> heldLevel(Event event, double periodNanos) {
    if (!event.fallen() && event.end() != Event.End.SETTLED) {
      return Optional.empty();
    }
    double after = event.levelAfterCounts();
    double noise = event.before().rest().noiseCounts();
    if (!event.before().rest().sure() && event.fallen()) {
      return Optional.of(new ZeroBefore(after, noise, true, 0));
    }
    double band = event.before().rest().bandCounts();
    if (Math.abs(after - event.before().rest().levelCounts()) < band) {
      return Optional.empty();
    }
    int needed = (int) Math.max(PART_LEAST, PART_NANOS / periodNanos);
    int until = lastRunNear(event.log(), after, band, needed);
    return until <= event.began()
        ? Optional.empty()
        : Optional.of(
            new ZeroBefore(
                trimmedMean(event.log(), until - needed, until),
                noise / Math.sqrt(needed),
                true,
                until - 1));
  }

  /** End of the last but one run of {@code needed} readings near a level; 0 if there is none. */
  private static int lastRunNear(SampleLog log, double level, double band, int needed) {
    int run = 0;
    int end = 0;
    for (int i = 0; i < log.size(); i++) {
      boolean near = Math.abs(log.counts(i) - level) < band;
      if (!near && run >= needed) {
        end = i;
      }
      run = near ? run + 1 : 0;
    }
    return end;
  }

  /** Mean of the middle half. */
  private static double trimmedMean(SampleLog log, int from, int to) {
    int[] readings = log.copyOfCounts(from, to);
    int n = readings.length;
    int cut = n / TRIMMED_PART;
    Selection.place(readings, 0, n, cut);
    Selection.place(readings, cut, n, n - cut - 1);
    long sum = 0;
    for (int i = cut; i < n - cut; i++) {
      sum += readings[i];
    }
    return sum / (double) (n - 2 * cut);
  }

  /** Reading at rest, counts. */
  double counts() {
    return counts;
  }

  /** Its standard uncertainty from noise, counts. */
  double uncertaintyCounts() {
    return uncertaintyCounts;
  }

  /** Index of a sample up to which the reading is known to have been at rest; 0 if not known. */
  int restsUntil() {
    return restsUntil;
  }

  /** Whether the reading was not steady. */
  boolean crept() {
    return crept;
  }
}
