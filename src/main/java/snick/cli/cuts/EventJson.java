package snick.cli.cuts;

import java.io.PrintWriter;
import java.util.Arrays;
import java.util.OptionalLong;
import java.util.Set;
import snick.cut.Cut;
import snick.cut.Flag;
import snick.cut.Peak;
import snick.force.budget.Calibration;
import snick.force.fit.CalibrationCurve;
import snick.quantity.Force;

/**
 * The scripts' contract: each event as a JSON object (RFC 8259) on a line of its own. Names and
 * meanings are kept stable; new names may be added. Written straight into characters that are
 * handed on many lines at a time, for a long file holds many events; all names and words in it are
 * our own and need no escaping. One thread.
 */
final class EventJson {
  private static final int SECONDS_DECIMALS = 9;
  private static final int FORCE_DECIMALS = 6;
  private static final double STEPS_PER_GRAM_FORCE = 1e6;

  /** Larger than any force, and all its millionths are still whole numbers. */
  private static final double MOST_IN_STEPS = 1e9;

  /** Of a line; with all flags and the longest numbers it has fewer than 512. */
  private static final int MOST_CHARACTERS = 1024;

  /** Of a number, its sign and point included. */
  private static final int MOST_DIGITS = 24;

  private static final char[] CUT = "{\"cut\":".toCharArray();
  private static final char[] OUTCOME = ",\"outcome\":\"".toCharArray();
  private static final char[] ONSET = "\",\"onset_s\":".toCharArray();
  private static final char[] BREAK = ",\"break_s\":".toCharArray();

  /** The uncertainty is that of the estimate alone: the calibration's own is left out. */
  private static final char[][] FORCES = {
    ",\"observed_max_gf\":".toCharArray(),
    ",\"force_gf\":".toCharArray(),
    ",\"u_gf\":".toCharArray(),
    ",\"loading_rate_gf_s\":".toCharArray()
  };

  private static final char[] FLAGS = ",\"flags\":[".toCharArray();
  private static final char[] END = ("]}" + System.lineSeparator()).toCharArray();
  private static final char[] NONE = "null".toCharArray();

  private final CalibrationCurve curve;
  private final PrintWriter out;
  private char[] lines = new char[4 * MOST_CHARACTERS];
  private int size;

  /**
   * Writes to {@code out}.
   *
   * @param line gives the forces, over {@link CalibrationChoice#RANGE}
   */
  EventJson(Calibration.Line line, PrintWriter out) {
    this.curve = line.curve();
    this.out = out;
  }

  /** Adds the event's line; forces in gf, times in s since the first sample. */
  void add(Cut cut) {
    if (lines.length - size < MOST_CHARACTERS) {
      lines = Arrays.copyOf(lines, 2 * lines.length);
    }
    text(CUT);
    decimal(cut.number(), 0);
    text(OUTCOME);
    text(cut.outcome().word().toCharArray());
    text(ONSET);
    decimal(cut.onsetNanos(), SECONDS_DECIMALS);
    text(BREAK);
    seconds(cut.breakNanos());
    forces(cut);
    text(FLAGS);
    flags(cut.flags());
    text(END);
  }

  /** Hands on the lines added since the last time. */
  void handOn() {
    out.write(lines, 0, size);
    size = 0;
  }

  private void seconds(OptionalLong nanos) {
    if (nanos.isPresent()) {
      decimal(nanos.getAsLong(), SECONDS_DECIMALS);
    } else {
      text(NONE);
    }
  }

  private void forces(Cut cut) {
    double[] gramForces = gramForces(cut);
    for (int i = 0; i < FORCES.length; i++) {
      text(FORCES[i]);
      gramForce(gramForces[i]);
    }
  }

  /** In the order of {@link #FORCES}; NaN where there is none. */
  private double[] gramForces(Cut cut) {
    double most = Double.NaN;
    double force = Double.NaN;
    double above = Double.NaN;
    if (cut.peak().isPresent()) {
      Peak peak = cut.peak().get();
      most = peak.observedMaxCounts();
      if (cut.breakNanos().isPresent()) {
        force = peak.estimateCounts();
        above = force + peak.standardUncertaintyCounts();
      }
    }
    double[] values = {most, force, above, cut.shape().loadingRateCountsPerSecond()};
    for (int i = 0; i < values.length; i++) {
      double newtons = curve.newtons(values[i], CalibrationChoice.RANGE);
      values[i] = newtons / Force.NEWTONS_PER_GRAM_FORCE;
    }
    values[2] -= values[1];
    return values;
  }

  private void gramForce(double value) {
    if (Math.abs(value) < MOST_IN_STEPS) {
      decimal((long) Math.rint(value * STEPS_PER_GRAM_FORCE), FORCE_DECIMALS);
    } else {
      text(Double.isFinite(value) ? Double.toString(value).toCharArray() : NONE);
    }
  }

  private void flags(Set<Flag> flags) {
    char separator = 0;
    for (Flag flag : Flag.BY_WORD) {
      if (flags.contains(flag)) {
        if (separator != 0) {
          lines[size++] = separator;
        }
        separator = ',';
        lines[size++] = '"';
        text(flag.word().toCharArray());
        lines[size++] = '"';
      }
    }
  }

  private void text(char[] text) {
    System.arraycopy(text, 0, lines, size, text.length);
    size += text.length;
  }

  /** A whole number of 10^−decimals, without zeros at the end but one after the point. */
  private void decimal(long units, int decimals) {
    long rest = Math.abs(units);
    int places = decimals;
    for (; places > 1 && rest % 10 == 0; places--) {
      rest /= 10;
    }
    int end = size + MOST_DIGITS;
    int at = end;
    for (; places >= 0 || rest > 0; places--) {
      if (places == 0 && decimals > 0) {
        lines[--at] = '.';
      }
      lines[--at] = (char) ('0' + rest % 10);
      rest /= 10;
    }
    if (units < 0) {
      lines[--at] = '-';
    }
    System.arraycopy(lines, at, lines, size, end - at);
    size += end - at;
  }
}
