package snick.report.plot;

import java.util.Locale;
import java.util.Optional;
import snick.cut.Cut;
import snick.force.budget.Calibration;

/**
 * A cut's readings as they are drawn: as force above the zero before the event if there is a
 * calibration, else as counts above it.
 *
 * @param cut the cut
 * @param calibration the one its force came from
 */
record TraceScale(Cut cut, Optional<Calibration> calibration) {
  /** A deflection, counts, on the axis: N, or counts. */
  double ofDeflection(double counts) {
    return calibration.map(c -> c.newtons(counts)).orElse(counts);
  }

  /** An absolute reading, counts, on the axis. */
  double ofReading(double counts) {
    return ofDeflection(cut.polarity() * (counts - cut.rest().zeroBeforeCounts()));
  }

  /** A value on the axis in words. */
  String told(double value) {
    return calibration.isPresent()
        ? Shown.fixed(value, 3) + " N"
        : String.format(Locale.ROOT, "%.0f counts", value);
  }

  ForceChart chart(String title, String xTitle, double low, double high) {
    ForceChart chart = new ForceChart(title, xTitle);
    return calibration.isPresent()
        ? chart.newtons(low, high)
        : chart.quantity("Reading above zero (counts)", low, high);
  }
}
