package snick.report.plot;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.knowm.xchart.style.markers.SeriesMarkers;
import snick.cut.Cut;
import snick.cut.Outcome;
import snick.cut.Peak;
import snick.cut.Trace;
import snick.force.budget.Calibration;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.phrase.Words;
import snick.quantity.MeasuredForce;
import snick.store.StoreReader;
import snick.store.record.CutSummary;
import snick.store.record.StoredCalibration;
import snick.store.record.StoredCut;

/** Draws one cut: the whole of it, and the moment of parting enlarged. */
public final class CutPlot {
  private static final int HEIGHT = 430;
  private static final int WHOLE_WIDTH = 455;
  private static final int NEAR_WIDTH = 465;
  private static final double REST_SHOWN_MS = 600;
  private static final double BEFORE_SHOWN_MS = 120;
  private static final double AFTER_SHOWN_MS = 60;
  private static final double NEAR_LOW = 0.8;
  private static final double NEAR_HIGH = 1.08;
  private static final double NANOS_PER_MS = 1e6;

  private final StoredCut stored;
  private final Words words;
  private final Cut cut;
  private final Trace trace;
  private final TraceScale scale;
  private final double[] times;
  private final double[] values;

  private CutPlot(StoredCut stored, Optional<Calibration> calibration, Words words) {
    this.stored = stored;
    this.words = words;
    cut = stored.cut();
    trace = stored.trace();
    scale = new TraceScale(cut, calibration, words);
    int[] shown =
        IntStream.range(0, trace.size())
            .filter(i -> !trace.overrange(i))
            .filter(i -> trace.deviceNanos(i) >= cut.onsetNanos() - REST_SHOWN_MS * NANOS_PER_MS)
            .toArray();
    times = Arrays.stream(shown).mapToDouble(i -> milliseconds(trace.deviceNanos(i))).toArray();
    values = Arrays.stream(shown).mapToDouble(i -> scale.ofReading(trace.counts(i))).toArray();
  }

  /**
   * The picture of a cut.
   *
   * @param calibration the one its current force came from; empty to draw it in counts
   * @param words the language
   * @throws NotAccepted if no sample of it lies inside the converter's range
   */
  public static Picture of(StoredCut stored, Optional<Calibration> calibration, Words words) {
    CutPlot plot = new CutPlot(stored, calibration, words);
    if (plot.times.length == 0) {
      throw new NotAccepted(
          stored.trace().size() == 0 ? "refused.no_trace_to_draw" : "refused.no_sample_in_range",
          "cut",
          stored.id());
    }
    return plot.picture();
  }

  /** The calibration that a cut's current force came from; empty if it is uncalibrated. */
  public static Optional<Calibration> calibration(StoreReader store, CutSummary cut) {
    return id(cut).flatMap(store::calibration).map(StoredCalibration::calibration);
  }

  /** Id of that calibration. */
  public static Optional<String> id(CutSummary cut) {
    return cut.force().flatMap(force -> force.estimate().calibrationUsed());
  }

  private double milliseconds(long deviceNanos) {
    return (deviceNanos - cut.breakNanos().orElse(cut.onsetNanos())) / NANOS_PER_MS;
  }

  private Phrase time() {
    return Phrase.of(cut.breakNanos().isPresent() ? "draw.from_break" : "draw.from_onset");
  }

  private String timeAxis(String unit) {
    return words.say("draw.axis", "what", time(), "unit", unit);
  }

  private Picture picture() {
    List<Picture.Panel> panels = new ArrayList<>();
    boolean parted = cut.breakNanos().isPresent() && isNear();
    int width = parted ? WHOLE_WIDTH : WHOLE_WIDTH + NEAR_WIDTH;
    panels.add(new Picture.Panel(whole().chart(), width));
    if (parted) {
      panels.add(new Picture.Panel(near().chart(), NEAR_WIDTH));
    }
    return new Picture(title(), description(), HEIGHT, panels).under(foot(parted));
  }

  private String[] foot(boolean parted) {
    CutSummary summary = stored.summary();
    String at = Day.minute(summary.occurredAt());
    String from =
        summary
            .place()
            .map(
                p ->
                    words.say(
                        Phrase.of("draw.cut_origin")
                            .with("n", stored.id())
                            .with("session", Shown.shortened(p.session()))
                            .with("stage", Shown.shortened(p.stage().name()))
                            .with("at", at)))
            .orElseGet(() -> words.say("draw.cut_origin_alone", "n", stored.id(), "at", at));
    boolean above = parted && estimate().orElse(0) > observed();
    return above ? new String[] {from, words.say("draw.why_above")} : new String[] {from};
  }

  /** Whether there is a sample near the break. */
  private boolean isNear() {
    return Arrays.stream(times).anyMatch(t -> Math.abs(t) < 2 * BEFORE_SHOWN_MS);
  }

  private static double seconds(double milliseconds) {
    return milliseconds / 1e3;
  }

  private String title() {
    return words.say(
        "draw.cut_title", "n", stored.id(), "outcome", Phrase.named("outcome", cut.outcome()));
  }

  private ForceChart whole() {
    double top = Math.max(Arrays.stream(values).max().orElse(0), estimate().orElse(0));
    double bottom = Arrays.stream(values).min().orElse(0);
    double room = 0.08 * (top - bottom) + Math.ulp(top);
    ForceChart chart =
        scale
            .chart(title(), timeAxis("s"), bottom - room, top + room)
            .fromTo(seconds(times[0]), seconds(times[times.length - 1]));
    double[] inSeconds = Arrays.stream(times).map(CutPlot::seconds).toArray();
    chart.line(words.say("draw.samples"), Look.INK, Pen.MEDIUM, inSeconds, values);
    levels(chart);
    marks(chart, false);
    return chart;
  }

  private void levels(ForceChart chart) {
    double onset = seconds(milliseconds(cut.onsetNanos()));
    chart.line(
        words.say("draw.zero_before"),
        Look.GREEN,
        Pen.DASHED,
        ends(seconds(times[0]), onset),
        ends(0, 0));
    if (cut.outcome() != Outcome.TRUNCATED) {
      zeroAfter(chart, Math.max(0, onset));
    }
  }

  private void zeroAfter(ForceChart chart, double from) {
    double after = scale.ofReading(cut.rest().zeroAfterCounts());
    double last = seconds(times[times.length - 1]);
    chart.line(
        words.say("draw.zero_after"),
        Look.PURPLE,
        Pen.DOTTED,
        ends(from, last),
        ends(after, after));
  }

  private static double[] ends(double first, double second) {
    return new double[] {first, second};
  }

  private ForceChart near() {
    double high = Math.max(estimate().orElseThrow(), observed());
    ForceChart chart =
        scale
            .chart(words.say("draw.break"), timeAxis("ms"), NEAR_LOW * high, NEAR_HIGH * high)
            .fromTo(-BEFORE_SHOWN_MS, AFTER_SHOWN_MS);
    int[] inside =
        IntStream.range(0, times.length)
            .filter(i -> Math.abs(times[i]) < 2 * BEFORE_SHOWN_MS)
            .toArray();
    chart
        .line(
            words.say("draw.samples"),
            Look.INK,
            Pen.MEDIUM,
            chosen(times, inside),
            chosen(values, inside))
        .setMarker(SeriesMarkers.CIRCLE)
        .setMarkerColor(Look.INK)
        .setShowInLegend(false);
    loadingLine(chart);
    marks(chart, true);
    return chart;
  }

  private static double[] chosen(double[] all, int[] places) {
    return Arrays.stream(places).mapToDouble(i -> all[i]).toArray();
  }

  private void loadingLine(ForceChart chart) {
    double fromMs = -BEFORE_SHOWN_MS;
    estimateCounts()
        .ifPresent(
            counts -> {
              double perMs = cut.shape().loadingRateCountsPerSecond() / 1e3;
              double[] y = {
                scale.ofDeflection(counts + perMs * fromMs), scale.ofDeflection(counts)
              };
              chart.line(words.say("draw.loading_line"), Look.BLUE, Pen.DASHED, ends(fromMs, 0), y);
            });
  }

  private void marks(ForceChart chart, boolean named) {
    observedAt()
        .ifPresent(
            at ->
                chart
                    .points(
                        words.say("draw.largest_sample"),
                        Look.VERMILION,
                        SeriesMarkers.TRIANGLE_UP,
                        new double[] {named ? at : seconds(at)},
                        new double[] {observed()})
                    .setShowInLegend(named));
    estimate()
        .ifPresent(
            value ->
                chart
                    .points(
                        words.say("draw.estimate"),
                        Look.BLUE,
                        SeriesMarkers.DIAMOND,
                        new double[] {0},
                        new double[] {value},
                        new double[] {half()})
                    .setShowInLegend(named));
  }

  private double observed() {
    return scale.ofDeflection(cut.peak().map(Peak::observedMaxCounts).orElse(0.0));
  }

  /** Time of the sample that is the observed maximum. */
  private OptionalDouble observedAt() {
    return cut.breakNanos().isEmpty()
        ? OptionalDouble.empty()
        : OptionalDouble.of(times[nearestToMaximum()]);
  }

  private int nearestToMaximum() {
    int best = 0;
    for (int i = 1; i < values.length; i++) {
      if (Math.abs(values[i] - observed()) < Math.abs(values[best] - observed())) {
        best = i;
      }
    }
    return best;
  }

  private Optional<Double> estimateCounts() {
    return cut.breakNanos().isPresent() ? cut.peak().map(Peak::estimateCounts) : Optional.empty();
  }

  private OptionalDouble estimate() {
    return estimateCounts()
        .map(counts -> OptionalDouble.of(scale.ofDeflection(counts)))
        .orElseGet(OptionalDouble::empty);
  }

  private Optional<MeasuredForce> force() {
    return stored.summary().force().flatMap(f -> f.estimate().measured());
  }

  private double half() {
    double countsOnly = cut.peak().map(p -> 2 * p.standardUncertaintyCounts()).orElse(0.0);
    return scale.calibration().isPresent()
        ? force().map(Shown::expandedNewtons).orElse(0.0)
        : countsOnly;
  }

  private String description() {
    return words.say(
        Phrase.of(scale.calibration().isPresent() ? "draw.cut_told" : "draw.cut_told_counts")
            .with("time", time())
            .with("outcome", Phrase.named("outcome", cut.outcome()))
            .with("largest", scale.told(observed()))
            .with(
                "estimate",
                force()
                    .filter(f -> cut.breakNanos().isPresent())
                    .map(f -> Shown.newtons(f) + " = " + Shown.gramForce(f))
                    .<Object>map(force -> Phrase.of("draw.estimate_told", "force", force))
                    .orElse("")));
  }
}
