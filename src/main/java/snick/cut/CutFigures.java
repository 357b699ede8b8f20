package snick.cut;

import static java.util.stream.Collectors.toUnmodifiableSet;
import static snick.quantity.Attribute.Type.REAL;
import static snick.quantity.Attribute.Type.SECONDS;

import java.util.Arrays;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Stream;
import snick.quantity.Attribute;
import snick.quantity.Values;

/**
 * What was found in the trace of a cut. Immutable. Counts are readings in units of the converter;
 * those of the peak are relative to zero and positive in the loading direction.
 *
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
 */
public record CutFigures(
    Outcome outcome,
    int polarity,
    long onsetNanos,
    OptionalLong breakNanos,
    Optional<Peak> peak,
    Shape shape,
    Rest rest,
    Set<Flag> flags) {
  /**
   * All of it, in order. The store's columns, the tables and schemas of packages, every JSON object
   * and page that tells of a cut follow this list; {@link #read} reads it back.
   */
  public static final List<Attribute<CutFigures>> ATTRIBUTES =
      List.of(
          Attribute.<CutFigures>text("outcome", "How the loading ended", f -> f.outcome.word())
              .among(Stream.of(Outcome.values()).map(Outcome::word).toList()),
          Attribute.whole(
              "polarity", "1 if load raises the reading, -1 if it lowers it", f -> f.polarity),
          Attribute.seconds(
              "onset_s",
              "Device time at which loading began, from the recording's first sample",
              CutFigures::onsetNanos),
          Attribute.some(
              "break_s",
              SECONDS,
              "s",
              "Device time of the break, from the same",
              f -> f.breakTime()),
          peak(
              "observed_max_counts",
              "Largest sample above zero, spikes left out",
              Peak::observedMaxCounts),
          peak(
              "estimate_counts",
              "Estimate of the reading above zero at the break",
              Peak::estimateCounts),
          peak(
              "u_counts",
              "Standard uncertainty of estimate_counts alone",
              Peak::standardUncertaintyCounts),
          Attribute.<CutFigures>real(
                  "loading_rate_counts_per_s",
                  "counts/s",
                  "Slope before the break",
                  f -> f.shape.loadingRateCountsPerSecond)
              .atTimes(),
          Attribute.seconds(
              "fall_s", "Time of the fall from 90 % to 10 % of the peak", f -> f.shape.fallNanos),
          Attribute.whole("dips", "Dips before the peak larger than noise", f -> f.shape.dips),
          Attribute.whole(
              "ramp_samples", "Samples between onset and peak", f -> f.shape.rampSamples),
          rest("zero_before_counts", "Mean reading at rest before", r -> r.zeroBeforeCounts),
          rest("zero_after_counts", "Mean reading at rest after", r -> r.zeroAfterCounts),
          rest("noise_counts", "Standard deviation of one sample at rest", r -> r.noiseCounts),
          Attribute.words(
              "flags", "What to know before trusting the number", f -> Flag.words(f.flags)));

  /** What {@link #ATTRIBUTES} told. */
  public static CutFigures read(Values told) {
    return new CutFigures(
        Outcome.ofWord(told.text("outcome")),
        told.integer("polarity"),
        told.nanos("onset_s"),
        told.optionalNanos("break_s"),
        peak(told),
        new Shape(
            told.real("loading_rate_counts_per_s"),
            told.nanos("fall_s"),
            told.integer("dips"),
            told.integer("ramp_samples")),
        new Rest(
            told.real("zero_before_counts"),
            told.real("zero_after_counts"),
            told.real("noise_counts")),
        flags(told.text("flags")));
  }

  public CutFigures {
    if (polarity != 1 && polarity != -1) {
      throw new IllegalArgumentException("a cut of polarity " + polarity);
    }
    EnumSet<Flag> copy = EnumSet.noneOf(Flag.class);
    copy.addAll(flags);
    flags = Collections.unmodifiableSet(copy);
  }

  /**
   * Of a cut without a trace: how it ended and, if it was typed in, its force.
   *
   * @param other what stands for every reading that nobody knows, 0 or NaN
   */
  public static CutFigures withoutTrace(Outcome outcome, Optional<Peak> peak, double other) {
    return new CutFigures(
        outcome,
        1,
        0,
        peak.isPresent() ? OptionalLong.of(0) : OptionalLong.empty(),
        peak,
        new Shape(other, 0, 0, 0),
        new Rest(other, other, other),
        Set.of());
  }

  private static Attribute<CutFigures> peak(
      String name, String meaning, Function<Peak, Double> value) {
    return Attribute.some(name, REAL, "counts", meaning, f -> f.peak.map(value));
  }

  private static Attribute<CutFigures> rest(
      String name, String meaning, Function<Rest, Double> value) {
    return Attribute.real(name, "counts", meaning, value).<CutFigures>of(f -> f.rest).atTimes();
  }

  private static Optional<Peak> peak(Values told) {
    return told.optionalReal("observed_max_counts").isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Peak(
                told.real("observed_max_counts"),
                told.real("estimate_counts"),
                told.real("u_counts")));
  }

  /** The flags of words with a space between them. */
  public static Set<Flag> flags(String words) {
    return Arrays.stream(words.split(" "))
        .filter(word -> !word.isEmpty())
        .map(Flag::ofWord)
        .collect(toUnmodifiableSet());
  }

  private Optional<Long> breakTime() {
    return breakNanos.stream().boxed().findFirst();
  }

  /**
   * All of it by name: always the same from the same trace, by the same version of the detector,
   * with the same response of the rig.
   */
  public Map<String, Object> values() {
    return Attribute.values(ATTRIBUTES, this);
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
