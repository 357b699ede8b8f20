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
import snick.quantity.Force;

/** Works out the figures of merit of one calibration from its deflections. */
final class FiguresOfMerit {
  private static final String ISO_376 = "in the terms of ISO 376 (definition from memory)";
  private static final String ISO_376_READ = "in the terms of ISO 376";
  private static final String R_60 = "in the terms of OIML R 60";
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
        "non-linearity",
        100 * worst / top,
        PERCENT,
        "largest distance of the mean rising deflections from the straight line through zero and"
            + " the largest load, in % of the largest deflection",
        R_60);
  }

  private Figure interpolation() {
    double worst = 0;
    for (Map.Entry<Double, List<Double>> entry : rising().entrySet()) {
      double fitted = fit.predict(entry.getKey());
      worst = Math.max(worst, Math.abs(mean(entry.getValue()) - fitted) / fitted);
    }
    return new Figure(
        "interpolation error",
        100 * worst,
        PERCENT,
        "largest of 100·|X̄r − Xa|/Xa, Xa from the fitted curve of degree " + fit.form().degree(),
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
        "repeatability",
        100 * worst,
        PERCENT,
        "largest of b = 100·(Xmax − Xmin)/X̄r at one load over the runs, loads taken off between",
        ISO_376_READ);
  }

  private Figure reversibility() {
    return new Figure(
        "reversibility",
        100 * reversals.stream().mapToDouble(Reversal::relative).average().orElse(0),
        PERCENT,
        "mean of v = 100·|X′ − X|/X, falling against rising in the same run",
        ISO_376);
  }

  private Figure zeroReturn() {
    double worst =
        data.runs().stream().mapToDouble(run -> Math.abs(run.zeroMovedCounts())).max().orElse(0);
    return new Figure(
        "return to zero",
        100 * worst / largestCounts,
        PERCENT,
        "largest of f0 = 100·|if − i0|/XN, zero after a run against zero before, XN the largest"
            + " deflection",
        ISO_376);
  }

  private Figure creep(CalibrationData.CreepHold hold) {
    return new Figure(
        "creep",
        100 * hold.changeCounts() * data.setting().polarity() / largestCounts,
        PERCENT,
        String.format(
            Locale.ROOT,
            "change over %.0f s under %s, in %% of the largest deflection",
            hold.spanSeconds(),
            hold.load().name()),
        R_60);
  }

  private Figure resolution() {
    double gramForce = largestNewtons / largestCounts / Force.NEWTONS_PER_GRAM_FORCE;
    return new Figure(
        "resolution", gramForce, "gf", "one count, by the mean slope", "JCGM 200:2012, 4.14");
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
        "noise",
        counts * largestNewtons / largestCounts / Force.NEWTONS_PER_GRAM_FORCE,
        "gf",
        "standard deviation of one sample at rest without load, pooled over the zeros",
        "own definition");
  }
}
