package snick.cli.cuts;

import snick.cut.Cut;
import snick.cut.Flag;
import snick.cut.Peak;
import snick.force.Calibration;
import snick.force.CalibrationCurve;
import snick.quantity.Force;

/**
 * The scripts' contract: one event as a JSON object (RFC 8259) on one line. Names and meanings are
 * kept stable; new names may be added. Written straight into one text used again, for a long file
 * holds many events; all names and words in it are our own and need no escaping. One thread.
 */
final class EventJson {
  private static final int SECONDS_DECIMALS = 9;
  private static final int FORCE_DECIMALS = 6;
  private static final double STEPS_PER_GRAM_FORCE = 1e6;

  /** Larger than any force, and all its millionths are still whole numbers. */
  private static final double MOST_IN_STEPS = 1e9;

  private final CalibrationCurve curve;
  private final StringBuilder line = new StringBuilder(256);
  private final char[] digits = new char[24];

  /** Forces by {@code line}, over {@link CalibrationChoice#RANGE}. */
  EventJson(Calibration.Line line) {
    this.curve = line.curve();
  }

  /** The event as a line; forces in gf, times in s since the first sample. Valid until the next. */
  CharSequence of(Cut cut) {
    line.setLength(0);
    line.append("{\"cut\":").append(cut.number());
    line.append(",\"outcome\":\"").append(cut.outcome().word()).append('"');
    line.append(",\"onset_s\":");
    decimal(cut.onsetNanos(), SECONDS_DECIMALS);
    line.append(",\"break_s\":");
    if (cut.breakNanos().isPresent()) {
      decimal(cut.breakNanos().getAsLong(), SECONDS_DECIMALS);
    } else {
      line.append("null");
    }
    peak(cut);
    line.append(",\"loading_rate_gf_s\":");
    gramForce(exactGramForce(cut.shape().loadingRateCountsPerSecond()));
    flags(cut);
    return line.append('}');
  }

  private void peak(Cut cut) {
    line.append(",\"observed_max_gf\":");
    if (cut.peak().isPresent()) {
      gramForce(exactGramForce(cut.peak().get().observedMaxCounts()));
    } else {
      line.append("null");
    }
    line.append(",\"force_gf\":");
    if (cut.breakNanos().isEmpty() || cut.peak().isEmpty()) {
      line.append("null,\"u_gf\":null");
      return;
    }
    gramForce(exactGramForce(cut.peak().get().estimateCounts()));
    line.append(",\"u_gf\":");
    gramForce(uncertaintyGramForce(cut.peak().get()));
  }

  /** Of the estimate alone: the calibration's own uncertainty is left out. */
  private double uncertaintyGramForce(Peak peak) {
    double above = peak.estimateCounts() + peak.standardUncertaintyCounts();
    return exactGramForce(above) - exactGramForce(peak.estimateCounts());
  }

  private double exactGramForce(double deflectionCounts) {
    return curve.newtons(deflectionCounts, CalibrationChoice.RANGE) / Force.NEWTONS_PER_GRAM_FORCE;
  }

  private void flags(Cut cut) {
    line.append(",\"flags\":[");
    char separator = 0;
    for (String word : Flag.words(cut.flags())) {
      if (separator != 0) {
        line.append(separator);
      }
      separator = ',';
      line.append('"').append(word).append('"');
    }
    line.append(']');
  }

  private void gramForce(double value) {
    if (Math.abs(value) < MOST_IN_STEPS) {
      decimal((long) Math.rint(value * STEPS_PER_GRAM_FORCE), FORCE_DECIMALS);
    } else {
      line.append(value);
    }
  }

  /** A whole number of 10^−decimals, without zeros at the end but one after the point. */
  private void decimal(long units, int decimals) {
    int at = digits.length;
    long rest = Math.abs(units);
    boolean shown = false;
    for (int place = 1; place <= decimals || rest > 0 || place == decimals + 1; place++) {
      shown |= rest % 10 != 0 || place == decimals;
      if (shown) {
        digits[--at] = (char) ('0' + rest % 10);
      }
      if (place == decimals) {
        digits[--at] = '.';
      }
      rest /= 10;
    }
    if (units < 0) {
      digits[--at] = '-';
    }
    line.append(digits, at, digits.length - at);
  }
}
