package snick.store.trace;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.zip.CRC32C;
import snick.cut.Trace;
import snick.cut.rest.Before;
import snick.sample.Gap;

/**
 * A trace as bytes: exact, and small for regular sampling. Format 1, after the format byte, in
 * LEB128 variable-length integers; signed ones zigzag-coded:
 *
 * <pre>
 * n                     samples
 * unit                  greatest common divisor of the time steps, ns; 1 if a step is negative
 * first                 first time, ns, signed               (only if n > 0)
 * n-1 × step change     difference of successive steps, in units, signed
 * n   × count change    difference of successive readings, signed, wrapping at 32 bits
 * runs, runs × (skip, length)    stretches of overrange samples
 * gaps, gaps × (cause, from signed, to − from, lost)
 * told                  1 if it is known what the stream had told before, else 0 and no more
 * began                 sample that began the event
 * polarity, usual       of the event and of those before, signed
 * level, from, noise, band, period       IEEE 754, 64 bits, most significant byte first
 * sure, settled         0 or 1
 * zero, its variance, drift, its variance, covariance of both      as level; and when, ns, signed
 * </pre>
 *
 * Every sample takes at least a byte, so the length of the bytes bounds what decoding allocates.
 */
public final class TraceBlob {
  private static final int FORMAT = 1;

  /** The place in this list is the code in the bytes: it only grows. */
  static final List<Gap.Cause> CAUSES =
      List.of(
          Gap.Cause.LOST_SAMPLES,
          Gap.Cause.DEVICE_RESET,
          Gap.Cause.LINK_REOPENED,
          Gap.Cause.FORM_CHANGED,
          Gap.Cause.PAUSED);

  private TraceBlob() {}

  /** CRC-32C (Castagnoli; RFC 3720 appendix B.4) of {@code bytes}. */
  public static long checksum(byte[] bytes) {
    CRC32C crc = new CRC32C();
    crc.update(bytes, 0, bytes.length);
    return crc.getValue();
  }

  public static byte[] encode(Trace trace) {
    VarintWriter out = new VarintWriter(16 + 4 * trace.size());
    out.octet(FORMAT);
    out.unsigned(trace.size());
    long unitNanos = unitNanos(trace);
    out.unsigned(unitNanos);
    encodeTimes(trace, unitNanos, out);
    encodeCounts(trace, out);
    encodeOverrange(trace, out);
    encodeGaps(trace.gaps(), out);
    out.octet(trace.before().isPresent() ? 1 : 0);
    trace.before().ifPresent(before -> encode(before, out));
    return out.bytes();
  }

  /** Found from what the steps change by, which is mostly nothing or little. */
  private static long unitNanos(Trace trace) {
    long unitNanos = 0;
    long lastStepNanos = 0;
    for (int i = 1; i < trace.size(); i++) {
      long stepNanos = trace.deviceNanos(i) - trace.deviceNanos(i - 1);
      if (stepNanos < 0) {
        return 1;
      }
      if (stepNanos != lastStepNanos) {
        unitNanos = greatestCommonDivisor(Math.abs(stepNanos - lastStepNanos), unitNanos);
      }
      lastStepNanos = stepNanos;
    }
    return Math.max(unitNanos, 1);
  }

  private static long greatestCommonDivisor(long a, long b) {
    long larger = a;
    long smaller = b;
    while (smaller != 0) {
      long rest = larger % smaller;
      larger = smaller;
      smaller = rest;
    }
    return larger;
  }

  private static void encodeTimes(Trace trace, long unitNanos, VarintWriter out) {
    if (trace.size() == 0) {
      return;
    }
    out.signed(trace.deviceNanos(0));
    long lastStepNanos = 0;
    for (int i = 1; i < trace.size(); i++) {
      long stepNanos = trace.deviceNanos(i) - trace.deviceNanos(i - 1);
      out.signed((stepNanos - lastStepNanos) / unitNanos);
      lastStepNanos = stepNanos;
    }
  }

  private static void encodeCounts(Trace trace, VarintWriter out) {
    int last = 0;
    for (int i = 0; i < trace.size(); i++) {
      out.signed(trace.counts(i) - last);
      last = trace.counts(i);
    }
  }

  private static void encodeOverrange(Trace trace, VarintWriter out) {
    List<int[]> runs = overrangeRuns(trace);
    out.unsigned(runs.size());
    int end = 0;
    for (int[] run : runs) {
      out.unsigned(run[0] - end);
      out.unsigned(run[1] - run[0]);
      end = run[1];
    }
  }

  /** Runs of samples out of range, each as its first sample and the one after its last. */
  public static List<int[]> overrangeRuns(Trace trace) {
    List<int[]> runs = new ArrayList<>();
    int i = 0;
    while (i < trace.size()) {
      int start = i;
      while (i < trace.size() && trace.overrange(i)) {
        i++;
      }
      if (i > start) {
        runs.add(new int[] {start, i});
      }
      i++;
    }
    return runs;
  }

  private static void encodeGaps(List<Gap> gaps, VarintWriter out) {
    out.unsigned(gaps.size());
    for (Gap gap : gaps) {
      out.unsigned(CAUSES.indexOf(gap.cause()));
      out.signed(gap.fromNanos());
      out.unsigned(gap.toNanos() - gap.fromNanos());
      out.unsigned(gap.lostSamples());
    }
  }

  private static void encode(Before before, VarintWriter out) {
    out.unsigned(before.began());
    out.signed(before.polarity());
    out.signed(before.usualPolarity());
    out.real(before.rest().levelCounts());
    out.real(before.rest().fromCounts());
    out.real(before.rest().noiseCounts());
    out.real(before.rest().bandCounts());
    out.real(before.periodNanos());
    out.octet(before.rest().sure() ? 1 : 0);
    out.octet(before.rest().settled() ? 1 : 0);
    Before.Zero zero = before.zero();
    out.real(zero.counts());
    out.real(zero.varianceCounts2());
    out.real(zero.driftCountsPerSecond());
    out.real(zero.driftVariance());
    out.real(zero.covariance());
    out.signed(zero.atNanos());
  }

  /**
   * The trace that {@code bytes} hold.
   *
   * @throws MalformedTraceException if they do not hold exactly one trace of a known format
   */
  public static Trace decode(byte[] bytes) {
    VarintReader in = new VarintReader(bytes);
    int format = in.octet();
    if (format != FORMAT) {
      throw new MalformedTraceException("trace format " + format + ", known: " + FORMAT);
    }
    int size = in.size(2);
    long[] deviceNanos = decodeTimes(size, in);
    int[] counts = decodeCounts(size, in);
    boolean[] overrange = decodeOverrange(size, in);
    List<Gap> gaps = decodeGaps(in);
    boolean told = in.octet() != 0;
    try {
      Optional<Before> before = told ? Optional.of(decodeBefore(in)) : Optional.empty();
      in.end();
      return new Trace(deviceNanos, counts, overrange, gaps, before);
    } catch (IllegalArgumentException e) {
      throw new MalformedTraceException(e.getMessage());
    }
  }

  private static long[] decodeTimes(int size, VarintReader in) {
    long unitNanos = in.unsigned();
    long[] deviceNanos = new long[size];
    if (size == 0) {
      return deviceNanos;
    }
    deviceNanos[0] = in.signed();
    long step = 0;
    for (int i = 1; i < size; i++) {
      step += in.signed();
      deviceNanos[i] = deviceNanos[i - 1] + step * unitNanos;
    }
    return deviceNanos;
  }

  private static int[] decodeCounts(int size, VarintReader in) {
    int[] counts = new int[size];
    int last = 0;
    for (int i = 0; i < size; i++) {
      last += (int) in.signed();
      counts[i] = last;
    }
    return counts;
  }

  private static boolean[] decodeOverrange(int size, VarintReader in) {
    boolean[] overrange = new boolean[size];
    int runs = in.size(2);
    int position = 0;
    for (int i = 0; i < runs; i++) {
      position = advance(position, in.unsigned(), size);
      int end = advance(position, in.unsigned(), size);
      Arrays.fill(overrange, position, end, true);
      position = end;
    }
    return overrange;
  }

  private static int advance(int position, long by, int size) {
    if (!(by >= 0 && by <= size - position)) {
      throw new MalformedTraceException(
          "overrange run reaches " + by + " past sample " + position + " of " + size);
    }
    return position + (int) by;
  }

  private static List<Gap> decodeGaps(VarintReader in) {
    int size = in.size(4);
    List<Gap> gaps = new ArrayList<>(size);
    for (int i = 0; i < size; i++) {
      gaps.add(decodeGap(in));
    }
    return gaps;
  }

  private static Gap decodeGap(VarintReader in) {
    long cause = in.unsigned();
    if (!(cause >= 0 && cause < CAUSES.size())) {
      throw new MalformedTraceException("gap of unknown cause " + cause);
    }
    long fromNanos = in.signed();
    long toNanos = fromNanos + in.unsigned();
    long lostSamples = in.unsigned();
    if (toNanos < fromNanos || lostSamples < 0) {
      throw new MalformedTraceException("gap from " + fromNanos + " ns to " + toNanos + " ns");
    }
    return new Gap(CAUSES.get((int) cause), fromNanos, toNanos, lostSamples);
  }

  private static Before decodeBefore(VarintReader in) {
    int began = (int) in.unsigned();
    int polarity = (int) in.signed();
    int usual = (int) in.signed();
    double level = in.real();
    double from = in.real();
    double noise = in.real();
    double band = in.real();
    double period = in.real();
    boolean sure = in.octet() != 0;
    boolean settled = in.octet() != 0;
    Before.Zero zero =
        new Before.Zero(in.real(), in.real(), in.real(), in.real(), in.real(), in.signed());
    Before.AtRest rest = new Before.AtRest(level, from, noise, band, sure, settled);
    return new Before(began, polarity, usual, rest, period, zero);
  }
}
