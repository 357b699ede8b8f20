package snick.exchange.read;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import snick.cut.Trace;
import snick.cut.rest.Before;
import snick.exchange.table.BeforeRow;
import snick.exchange.table.CsvRows;
import snick.exchange.table.Decimals;
import snick.quantity.Worded;
import snick.sample.Gap;

/**
 * Reads the samples, what came before, gaps and overrange runs of one cut after the other. Memory
 * follows the rows that are really there, never a number that is stated.
 */
final class TraceReading implements Traces {
  /** Over ten hours at 80 samples a second. */
  static final int MOST_SAMPLES = 3_000_000;

  private static final int CUT = 0;
  private static final int FIRST_ROOM = 1024;

  private final CsvRows traces;
  private final CsvRows before;
  private final CsvRows gaps;
  private final CsvRows overrange;
  private long[] nanos = new long[FIRST_ROOM];
  private int[] counts = new int[FIRST_ROOM];
  private double[] newtons = new double[FIRST_ROOM];
  private int size;

  TraceReading(CsvRows traces, CsvRows before, CsvRows gaps, CsvRows overrange) {
    this.traces = traces;
    this.before = before;
    this.gaps = gaps;
    this.overrange = overrange;
  }

  @Override
  public Trace next(int cut) {
    size = 0;
    while (traces.present() && traces.integer(CUT) == cut) {
      sample();
      traces.advance();
    }
    return new Trace(
        Arrays.copyOf(nanos, size),
        Arrays.copyOf(counts, size),
        marks(cut),
        gaps(cut),
        before(cut));
  }

  private Optional<Before> before(int cut) {
    if (!before.present() || before.integer(CUT) != cut) {
      return Optional.empty();
    }
    try {
      Before told = BeforeRow.read(before);
      if (told.began() >= size) {
        throw before.refused("began_sample is " + told.began() + " of " + size);
      }
      before.advance();
      return Optional.of(told);
    } catch (IllegalArgumentException e) {
      throw before.refused(e.getMessage());
    }
  }

  /** Stated force of each sample of the last trace, N; NaN if none is stated. */
  double[] statedNewtons() {
    return Arrays.copyOf(newtons, size);
  }

  private void sample() {
    if (traces.whole(1) != size) {
      throw traces.refused("sample is " + traces.whole(1) + ", not " + size);
    }
    if (size == MOST_SAMPLES) {
      throw traces.refused("over " + MOST_SAMPLES + " samples in one cut");
    }
    if (size == counts.length) {
      nanos = Arrays.copyOf(nanos, 2 * size);
      counts = Arrays.copyOf(counts, 2 * size);
      newtons = Arrays.copyOf(newtons, 2 * size);
    }
    nanos[size] = traces.nanos(2);
    if (size > 0 && nanos[size] < nanos[size - 1]) {
      throw traces.refused("t_s goes back, from " + Decimals.seconds(nanos[size - 1]));
    }
    counts[size] = traces.integer(3);
    newtons[size] = traces.real(4).orElse(Double.NaN);
    size++;
  }

  private boolean[] marks(int cut) {
    boolean[] marks = new boolean[size];
    int after = -1;
    while (overrange.present() && overrange.integer(CUT) == cut) {
      int first = overrange.integer(1);
      int last = overrange.integer(2);
      if (!(first > after && last >= first && last < size)) {
        throw overrange.refused(
            "run " + first + " to " + last + " does not follow " + after + " within " + size);
      }
      Arrays.fill(marks, first, last + 1, true);
      after = last;
      overrange.advance();
    }
    return marks;
  }

  private List<Gap> gaps(int cut) {
    List<Gap> found = new ArrayList<>();
    while (gaps.present() && gaps.integer(CUT) == cut) {
      if (gaps.whole(1) != found.size() + 1 || found.size() > size) {
        throw gaps.refused("gap is " + gaps.whole(1) + ", not " + (found.size() + 1));
      }
      found.add(gap());
      gaps.advance();
    }
    return found;
  }

  private Gap gap() {
    try {
      return new Gap(
          Worded.named(Gap.Cause.class, gaps.text("cause"))
              .orElseThrow(() -> gaps.refused("cause of a gap is not known here")),
          gaps.nanos(3),
          gaps.nanos(4),
          gaps.whole(5));
    } catch (IllegalArgumentException e) {
      throw gaps.refused(e.getMessage());
    }
  }
}
