package snick.exchange;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.cut.Cut;
import snick.cut.Peak;
import snick.cut.Trace;
import snick.force.Calibration;
import snick.force.DerivedForce;
import snick.store.Recording;

/**
 * Checks a package: files and digests, tables against their schema, readings against the converter,
 * forces against the calibration, and the stated peak against what this program's detector finds in
 * the raw trace. Constant memory.
 */
public final class PackageCheck {
  private static final int MOST_DIFFERENCES = 100;
  private static final int HIGHEST_24_BIT_COUNT = (1 << 23) - 1;

  /** Room for another order of floating-point operations, nothing more. */
  private static final double ROUNDING = 1e-9;

  /** How many combined standard uncertainties apart two estimates from one trace may lie. */
  private static final double COVERAGE = 3;

  private final PackageReading reading;
  private final Watch watch;
  private final List<String> differences = new ArrayList<>();
  private long samples;
  private int rederived;
  private int notFound;

  PackageCheck(PackageReading reading, Watch watch) {
    this.reading = reading;
    this.watch = watch;
  }

  /**
   * Checks the package in a folder or zip file.
   *
   * @throws RefusedPackage if it is not what it should be
   */
  public static PackageReport of(Path path, Watch watch) throws IOException {
    try (PackageReading reading = PackageReading.open(path)) {
      return new PackageCheck(reading, watch).run();
    }
  }

  PackageReport run() throws IOException {
    int cuts = reading.forEachCut(this::check);
    return new PackageReport(reading.title(), cuts, samples, rederived, notFound, differences);
  }

  private void differ(StatedCut cut, String format, Object... values) {
    if (differences.size() < MOST_DIFFERENCES) {
      differences.add("cut " + cut.number() + ": " + String.format(Locale.ROOT, format, values));
    }
  }

  private void check(StatedCut cut, TraceReading read) {
    watch.check(cut.number(), 0);
    samples += cut.cut().trace().size();
    checkCounts(cut);
    checkSampleForces(cut, read);
    checkForce(cut);
    checkPeak(cut);
  }

  private void checkCounts(StatedCut cut) {
    Recording recording = reading.contents().recordings().get(cut.recording() - 1).recording();
    Trace trace = cut.cut().trace();
    for (int i = 0; recording.form() == Recording.Form.BINARY && i < trace.size(); i++) {
      int counts = trace.counts(i);
      if (counts > HIGHEST_24_BIT_COUNT || counts < -HIGHEST_24_BIT_COUNT - 1) {
        differ(cut, "sample %d is %d counts, beyond a 24-bit converter", i, counts);
        return;
      }
    }
  }

  private Optional<Calibration> calibration(StatedCut cut) {
    return cut.calibration().stream()
        .mapToObj(number -> reading.contents().calibration(number))
        .findFirst();
  }

  private void checkSampleForces(StatedCut cut, TraceReading read) {
    TraceForces forces =
        new TraceForces(
            calibration(cut), cut.cut().polarity(), cut.cut().rest().zeroBeforeCounts());
    Trace trace = cut.cut().trace();
    for (int i = 0; i < trace.size(); i++) {
      OptionalDouble derived = forces.newtons(trace.counts(i));
      double stated = read.statedNewtons(i);
      boolean same =
          derived.isPresent() ? near(stated, derived.getAsDouble()) : Double.isNaN(stated);
      if (!same) {
        differ(cut, "sample %d: force_n is %s, its counts give %s", i, stated, text(derived));
        return;
      }
    }
  }

  private static String text(OptionalDouble value) {
    return value.isPresent() ? Double.toString(value.getAsDouble()) : "none";
  }

  private static boolean near(double stated, double derived) {
    return Math.abs(stated - derived) <= ROUNDING * Math.max(1, Math.abs(derived));
  }

  private void checkForce(StatedCut cut) {
    if (cut.force().isEmpty()) {
      return;
    }
    Optional<Peak> peak = cut.cut().peak();
    if (peak.isEmpty()) {
      differ(cut, "it has a force but no peak");
      return;
    }
    Calibration calibration = calibration(cut).orElseThrow();
    DerivedForce derived =
        calibration.derive(peak.get().estimateCounts(), peak.get().standardUncertaintyCounts());
    DerivedForce stated = cut.force().get().estimate();
    double statedNewtons = stated.measured().orElseThrow().value().newtons();
    double statedU = stated.measured().orElseThrow().standardUncertainty().newtons();
    double newtons = derived.measured().orElseThrow().value().newtons();
    double u = derived.measured().orElseThrow().standardUncertainty().newtons();
    if (!near(statedNewtons, newtons) || !near(statedU, u)) {
      differ(
          cut,
          "force_n is %s with standard uncertainty %s, the calibration gives %s with %s",
          statedNewtons,
          statedU,
          newtons,
          u);
    }
    if (stated.getClass() != derived.getClass()) {
      differ(cut, "in_range does not fit the range of the calibration");
    }
  }

  private void checkPeak(StatedCut cut) {
    Optional<Cut> found = Rederivation.of(cut.cut());
    if (found.isEmpty()) {
      notFound++;
      return;
    }
    rederived++;
    if (cut.detectorVersion() == Cut.DETECTOR_VERSION
        && found.get().outcome() != cut.cut().outcome()) {
      differ(
          cut,
          "outcome is %s, the trace gives %s",
          cut.cut().outcome().word(),
          found.get().outcome().word());
      return;
    }
    if (found.get().peak().isPresent() && cut.cut().peak().isPresent()) {
      comparePeaks(cut, found.get());
    }
  }

  private void comparePeaks(StatedCut cut, Cut found) {
    Peak stated = cut.cut().peak().orElseThrow();
    Peak again = found.peak().orElseThrow();
    double noise = found.rest().noiseCounts();
    double u =
        Math.hypot(stated.standardUncertaintyCounts(), again.standardUncertaintyCounts()) + noise;
    if (!(Math.abs(stated.estimateCounts() - again.estimateCounts()) <= COVERAGE * u)) {
      differ(
          cut,
          "estimate_counts is %.1f, the trace gives %.1f",
          stated.estimateCounts(),
          again.estimateCounts());
    }
    if (!(Math.abs(stated.observedMaxCounts() - again.observedMaxCounts()) <= COVERAGE * u)) {
      differ(
          cut,
          "observed_max_counts is %.1f, the trace gives %.1f",
          stated.observedMaxCounts(),
          again.observedMaxCounts());
    }
  }
}
