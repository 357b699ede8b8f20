package snick.exchange;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.cut.Cut;
import snick.cut.Peak;
import snick.cut.Trace;
import snick.force.budget.Calibration;
import snick.force.budget.DerivedForce;
import snick.store.CutForce;
import snick.store.Recording;

/** Checks what is stated of one cut against its raw trace. */
final class CutCheck {
  private static final int HIGHEST_24_BIT_COUNT = (1 << 23) - 1;

  /** Room for another order of floating-point operations, nothing more. */
  private static final double ROUNDING = 1e-9;

  /** How many combined standard uncertainties apart two estimates from one trace may lie. */
  private static final double COVERAGE = 3;

  /** Room for what another detector version makes of the same trace, part of the force. */
  private static final double OTHER_DETECTOR = 0.05;

  private final Cut cut;
  private final int detectorVersion;
  private final Optional<Calibration> calibration;
  private final List<String> differences = new ArrayList<>();

  /**
   * What a check found.
   *
   * @param again whether this program's detector finds the event in the trace
   * @param differences what the trace does not bear out, one clause each
   */
  record Found(boolean again, List<String> differences) {}

  /**
   * A check.
   *
   * @param cut what is stated, with the trace
   * @param detectorVersion version of the detector that found it
   * @param calibration what its force was derived with, if it has one
   */
  CutCheck(Cut cut, int detectorVersion, Optional<Calibration> calibration) {
    this.cut = cut;
    this.detectorVersion = detectorVersion;
    this.calibration = calibration;
  }

  private void differ(String format, Object... values) {
    differences.add(String.format(Locale.ROOT, format, values));
  }

  /** Whether readings of the recording fit its converter. */
  void counts(Recording recording) {
    Trace trace = cut.trace();
    for (int i = 0; recording.form() == Recording.Form.BINARY && i < trace.size(); i++) {
      int counts = trace.counts(i);
      if (counts > HIGHEST_24_BIT_COUNT || counts < -HIGHEST_24_BIT_COUNT - 1) {
        differ("sample %d is %d counts, beyond a 24-bit converter", i, counts);
        return;
      }
    }
  }

  /**
   * Whether the stated force of each sample is what the calibration makes of it.
   *
   * @param statedNewtons force of each sample, N; NaN if none is stated
   */
  void sampleForces(double[] statedNewtons) {
    TraceForces forces =
        new TraceForces(calibration, cut.polarity(), cut.rest().zeroBeforeCounts());
    for (int i = 0; i < statedNewtons.length; i++) {
      OptionalDouble derived = forces.newtons(cut.trace().counts(i));
      boolean same =
          derived.isPresent()
              ? near(statedNewtons[i], derived.getAsDouble())
              : Double.isNaN(statedNewtons[i]);
      if (!same) {
        differ("sample %d: force_n is %s, its counts give %s", i, statedNewtons[i], text(derived));
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

  /** Whether the calibration gives the stated force. */
  void force(CutForce force) {
    if (cut.peak().isEmpty() || calibration.isEmpty()) {
      differ("it has a force but no " + (calibration.isEmpty() ? "calibration" : "peak"));
      return;
    }
    Peak peak = cut.peak().get();
    DerivedForce derived =
        calibration.get().derive(peak.estimateCounts(), peak.standardUncertaintyCounts());
    DerivedForce stated = force.estimate();
    double statedNewtons = stated.measured().orElseThrow().value().newtons();
    double statedU = stated.measured().orElseThrow().standardUncertainty().newtons();
    double newtons = derived.measured().orElseThrow().value().newtons();
    double u = derived.measured().orElseThrow().standardUncertainty().newtons();
    if (!near(statedNewtons, newtons) || !near(statedU, u)) {
      differ(
          "force_n is %s with standard uncertainty %s, the calibration gives %s with %s",
          statedNewtons, statedU, newtons, u);
    }
    if (stated.getClass() != derived.getClass()) {
      differ("in_range does not fit the range of the calibration");
    }
  }

  /** Derives the event again; what was found until now with it. */
  Found again(Rederivation rederivation) {
    Optional<Cut> found = rederivation.of(cut);
    found.ifPresent(this::compare);
    return new Found(found.isPresent(), List.copyOf(differences));
  }

  private void compare(Cut found) {
    if (detectorVersion == Cut.DETECTOR_VERSION && found.outcome() != cut.outcome()) {
      differ("outcome is %s, the trace gives %s", cut.outcome().word(), found.outcome().word());
      return;
    }
    if (found.peak().isPresent() && cut.peak().isPresent()) {
      compare(cut.peak().get(), found.peak().get(), found.rest().noiseCounts());
    }
  }

  private void compare(Peak stated, Peak again, double noiseCounts) {
    double u =
        Math.hypot(stated.standardUncertaintyCounts(), again.standardUncertaintyCounts())
            + noiseCounts;
    double room =
        detectorVersion == Cut.DETECTOR_VERSION
            ? 0
            : OTHER_DETECTOR * Math.abs(again.estimateCounts());
    if (!(Math.abs(stated.estimateCounts() - again.estimateCounts()) <= COVERAGE * u + room)) {
      differ(
          "estimate_counts is %.1f, the trace gives %.1f",
          stated.estimateCounts(), again.estimateCounts());
    }
    if (!(Math.abs(stated.observedMaxCounts() - again.observedMaxCounts()) <= COVERAGE * u)) {
      differ(
          "observed_max_counts is %.1f, the trace gives %.1f",
          stated.observedMaxCounts(), again.observedMaxCounts());
    }
  }
}
