package snick.report.plot;

import java.util.Optional;
import snick.cut.Cut;
import snick.force.budget.Calibration;
import snick.phrase.Words;

/**
 * A cut's readings as they are drawn: as force above the zero before the event if there is a
 * calibration, else as counts above it.
 *
 * @param cut the cut
 * @param calibration the one its force came from
 * @param words the language
 */
record TraceScale(Cut cut, Optional<Calibration> calibration, Words words) {
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
        : words.say("draw.counts", "n", Shown.fixed(value, 0));
  }

  ForceChart chart(String title, String xTitle, double low, double high) {
    ForceChart chart = new ForceChart(words, title, xTitle);
    return calibration.isPresent()
        ? chart.newtons(low, high)
        : chart.quantity(words.say("draw.reading"), low, high);
  }
}
