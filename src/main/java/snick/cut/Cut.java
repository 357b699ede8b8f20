package snick.cut;

import java.util.Collections;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Function;
import snick.cut.response.Response;
import snick.cut.response.SeenFall;

/**
 * One finished event: the filament was loaded, and this is what became of it. Immutable. All counts
 * are integers' kin: readings relative to zero, in the converter's counts, positive in the loading
 * direction.
 *
 * @param number 1 for the stream's first event
 * @param outcome how it ended
 * @param polarity +1 if load raises the reading, −1 if it lowers it
 * @param onsetNanos device time at which loading began, ns
 * @param breakNanos device time of the break, the filter's delay included, ns; only if severed or
 *     parted in steps
 * @param peak largest sample and, if severed, the estimate of the force at the break; empty if the
 *     event has no usable sample
 * @param shape what the loading and the fall looked like
 * @param rest readings at rest before and after
 * @param flags what to know before trusting the number
 * @param trace the raw samples
 * @param response what was known of the rig when it was found and estimated
 */
public record Cut(
    int number,
    Outcome outcome,
    int polarity,
    long onsetNanos,
    OptionalLong breakNanos,
    Optional<Peak> peak,
    Shape shape,
    Rest rest,
    Set<Flag> flags,
    Trace trace,
    Response response) {
  /**
   * Version of detection and estimation; results carry it and can be derived again by a later one.
   */
  public static final int DETECTOR_VERSION = 4;

  public Cut {
    if (number < 1 || (polarity != 1 && polarity != -1)) {
      throw new IllegalArgumentException("cut " + number + " with polarity " + polarity);
    }
    EnumSet<Flag> copy = EnumSet.noneOf(Flag.class);
    copy.addAll(flags);
    flags = Collections.unmodifiableSet(copy);
  }

  /** A cut found while nothing was known of the rig's response. */
  public Cut(
      int number,
      Outcome outcome,
      int polarity,
      long onsetNanos,
      OptionalLong breakNanos,
      Optional<Peak> peak,
      Shape shape,
      Rest rest,
      Set<Flag> flags,
      Trace trace) {
    this(
        number,
        outcome,
        polarity,
        onsetNanos,
        breakNanos,
        peak,
        shape,
        rest,
        flags,
        trace,
        Response.unknown());
  }

  /**
   * What was derived, by name: always the same from the same trace, by the same version of the
   * detector, with the same response of the rig.
   */
  public Map<String, Object> figures() {
    Map<String, Object> figures = new LinkedHashMap<>();
    figures.put("outcome", outcome.word());
    figures.put("polarity", polarity);
    figures.put("onset_ns", onsetNanos);
    figures.put("break_ns", breakNanos.isPresent() ? breakNanos.getAsLong() : "none");
    figures.put("observed_max_counts", ofPeak(Peak::observedMaxCounts));
    figures.put("estimate_counts", ofPeak(Peak::estimateCounts));
    figures.put("u_counts", ofPeak(Peak::standardUncertaintyCounts));
    figures.put("loading_rate_counts_per_s", shape.loadingRateCountsPerSecond());
    figures.put("fall_ns", shape.fallNanos());
    figures.put("dips", shape.dips());
    figures.put("ramp_samples", shape.rampSamples());
    figures.put("zero_before_counts", rest.zeroBeforeCounts());
    figures.put("zero_after_counts", rest.zeroAfterCounts());
    figures.put("noise_counts", rest.noiseCounts());
    figures.put("flags", flags);
    return figures;
  }

  private Object ofPeak(Function<Peak, Object> figure) {
    return peak.map(figure).orElse("none");
  }

  /** What the rig's response can be learned from; empty if it did not part at once and clearly. */
  public Optional<SeenFall> fall() {
    boolean clear =
        outcome == Outcome.SEVERED
            && breakNanos.isPresent()
            && peak.isPresent()
            && trace.gaps().isEmpty();
    return clear
        ? trace.fall(
            breakNanos.getAsLong(),
            polarity,
            rest.zeroBeforeCounts(),
            peak.get().estimateCounts(),
            shape.loadingRateCountsPerSecond(),
            rest.noiseCounts())
        : Optional.empty();
  }

  /**
   * Loading and fall.
   *
   * @param loadingRateCountsPerSecond slope before the break, counts/s, positive in loading
   *     direction
   * @param fallNanos time in which the reading fell from 90 % to 10 % of the peak, ns; 0 if it did
   *     not fall
   * @param dips dips before the peak larger than noise
   * @param rampSamples samples between onset and peak
   */
  public record Shape(
      double loadingRateCountsPerSecond, long fallNanos, int dips, int rampSamples) {}

  /**
   * Readings at rest, absolute (not above zero).
   *
   * @param zeroBeforeCounts mean reading before, counts
   * @param zeroAfterCounts mean reading after, counts; equals before if the stream broke first
   * @param noiseCounts standard deviation of one sample at rest, counts, robust
   */
  public record Rest(double zeroBeforeCounts, double zeroAfterCounts, double noiseCounts) {}
}
