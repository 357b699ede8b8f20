package snick.force.budget;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import snick.force.fit.PolynomialFit;
import snick.force.reading.CalibrationData;
import snick.force.reading.CalibrationRun;
import snick.force.reading.Deflection;
import snick.force.reading.Direction;
import snick.force.reading.Reversal;
import snick.phrase.Phrase;
import snick.quantity.Force;

/** Works out the figures of merit of one calibration from its deflections. */
final class FiguresOfMerit {
  private static final Phrase ISO_376 = Phrase.of("merit.by_iso_376_from_memory");
  private static final Phrase ISO_376_READ = Phrase.of("merit.by_iso_376");
  private static final Phrase R_60 = Phrase.of("merit.by_r_60");
  private static final String PERCENT = "%";

  private final CalibrationData data;
  private final List<Deflection> deflections;
  private final List<Reversal> reversals;
  private final PolynomialFit fit;
  private final double largestNewtons;
  private final double largestCounts;

  FiguresOfMerit(CalibrationData data, List<Deflection> deflections, PolynomialFit fit) {
    this.data = data;
    this.deflections = deflections;
    this.reversals = Reversal.pairs(deflections);
    this.fit = fit;
    this.largestNewtons = deflections.stream().mapToDouble(Deflection::newtons).max().orElse(0);
    this.largestCounts = fit.predict(largestNewtons);
  }

  /** All figures that the data allow. */
  List<Figure> all() {
    List<Figure> figures = new ArrayList<>();
    figures.add(nonLinearity());
    figures.add(interpolation());
    if (data.runs().size() > 1) {
      figures.add(repeatability());
    }
    if (!reversals.isEmpty()) {
      figures.add(reversibility());
    }
    figures.add(zeroReturn());
    data.hold().ifPresent(hold -> figures.add(creep(hold)));
    figures.add(resolution());
    figures.add(noise());
    return List.copyOf(figures);
  }

  private Map<Double, List<Double>> rising() {
    Map<Double, List<Double>> byForce = new TreeMap<>();
    for (Deflection d : deflections) {
      if (d.direction() == Direction.UP) {
        byForce.computeIfAbsent(d.newtons(), f -> new ArrayList<>()).add(d.counts());
      }
    }
    return byForce;
  }

  private static double mean(Collection<Double> values) {
    return values.stream().mapToDouble(v -> v).average().orElse(0);
  }

  private Figure nonLinearity() {
    Map<Double, List<Double>> byForce = rising();
    double top = mean(byForce.get(largestNewtons));
    double worst = 0;
    for (Map.Entry<Double, List<Double>> entry : byForce.entrySet()) {
      double line = top * entry.getKey() / largestNewtons;
      worst = Math.max(worst, Math.abs(mean(entry.getValue()) - line));
    }
    return new Figure(
        Phrase.of("merit.non_linearity"),
        100 * worst / top,
        PERCENT,
        Phrase.of("merit.non_linearity_is"),
        R_60);
  }

  private Figure interpolation() {
    double worst = 0;
    for (Map.Entry<Double, List<Double>> entry : rising().entrySet()) {
      double fitted = fit.predict(entry.getKey());
      worst = Math.max(worst, Math.abs(mean(entry.getValue()) - fitted) / fitted);
    }
    return new Figure(
        Phrase.of("merit.interpolation"),
        100 * worst,
        PERCENT,
        Phrase.of("merit.interpolation_is", "degree", fit.form().degree()),
        ISO_376);
  }

  private Figure repeatability() {
    double worst = 0;
    for (List<Double> readings : rising().values()) {
      double high = readings.stream().mapToDouble(v -> v).max().orElse(0);
      double low = readings.stream().mapToDouble(v -> v).min().orElse(0);
      worst = Math.max(worst, (high - low) / mean(readings));
    }
    return new Figure(
        Phrase.of("merit.repeatability"),
        100 * worst,
        PERCENT,
        Phrase.of("merit.repeatability_is"),
        ISO_376_READ);
  }

  private Figure reversibility() {
    return new Figure(
        Phrase.of("merit.reversibility"),
        100 * reversals.stream().mapToDouble(Reversal::relative).average().orElse(0),
        PERCENT,
        Phrase.of("merit.reversibility_is"),
        ISO_376);
  }

  private Figure zeroReturn() {
    double worst =
        data.runs().stream().mapToDouble(run -> Math.abs(run.zeroMovedCounts())).max().orElse(0);
    return new Figure(
        Phrase.of("merit.return_to_zero"),
        100 * worst / largestCounts,
        PERCENT,
        Phrase.of("merit.return_to_zero_is"),
        ISO_376);
  }

  private Figure creep(CalibrationData.CreepHold hold) {
    return new Figure(
        Phrase.of("merit.creep"),
        100 * hold.changeCounts() * data.setting().polarity() / largestCounts,
        PERCENT,
        Phrase.of("merit.creep_is")
            .with("seconds", String.format(Locale.ROOT, "%.0f", hold.spanSeconds()))
            .with("load", hold.load().name()),
        R_60);
  }

  private Figure resolution() {
    double gramForce = largestNewtons / largestCounts / Force.NEWTONS_PER_GRAM_FORCE;
    return new Figure(
        Phrase.of("merit.resolution"),
        gramForce,
        "gf",
        Phrase.of("merit.resolution_is"),
        Phrase.of("merit.by_vim"));
  }

  private Figure noise() {
    double squares = 0;
    int readings = 0;
    for (CalibrationRun run : data.runs()) {
      squares += Math.pow(run.zeroBefore().sdCounts(), 2) + Math.pow(run.zeroAfter().sdCounts(), 2);
      readings += 2;
    }
    double counts = Math.sqrt(squares / readings);
    return new Figure(
        Phrase.of("merit.noise"),
        counts * largestNewtons / largestCounts / Force.NEWTONS_PER_GRAM_FORCE,
        "gf",
        Phrase.of("merit.noise_is"),
        Phrase.of("merit.by_us"));
  }
}
