package snick.exchange.derive;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.cut.Cut;
import snick.cut.CutFigures;
import snick.cut.Peak;
import snick.cut.Rederivation;
import snick.cut.Trace;
import snick.force.budget.Calibration;
import snick.force.budget.DerivedForce;
import snick.quantity.Attribute;
import snick.store.record.CutForce;
import snick.store.record.Recording;

/** Checks what is stated of one cut against its raw trace. */
public final class CutCheck {
  private static final int HIGHEST_24_BIT_COUNT = (1 << 23) - 1;

  /** Room for another order of floating-point operations, nothing more. */
  private static final double ROUNDING = 1e-9;

  /** Room for what another detector version makes of the same trace, part of the force. */
  private static final double OTHER_DETECTOR = 0.05;

  private final Cut cut;
  private final int detectorVersion;
  private final Optional<Calibration> calibration;
  private final List<String> differences = new ArrayList<>();

  /**
   * A check.
   *
   * @param cut what is stated, with the trace
   * @param detectorVersion version of the detector that found it
   * @param calibration what its force was derived with, if it has one
   */
  public CutCheck(Cut cut, int detectorVersion, Optional<Calibration> calibration) {
    this.cut = cut;
    this.detectorVersion = detectorVersion;
    this.calibration = calibration;
  }

  private void differ(String format, Object... values) {
    differences.add(String.format(Locale.ROOT, format, values));
  }

  /** Whether readings of the recording fit its converter. */
  public void counts(Recording recording) {
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
  public void sampleForces(double[] statedNewtons) {
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
  public void force(CutForce force) {
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

  /** Derives the event again, if it has a trace; all that differs. */
  public List<String> again(Rederivation rederivation) {
    if (cut.trace().size() > 0) {
      derive(rederivation);
    }
    return List.copyOf(differences);
  }

  private void derive(Rederivation rederivation) {
    try {
      rederivation
          .of(cut)
          .ifPresentOrElse(
              this::compare,
              () ->
                  differ(
                      cut.trace().before().isPresent()
                          ? "its trace gives no event"
                          : "what came before it is not there, so it cannot be derived again"));
    } catch (IllegalArgumentException e) {
      differ("what is stated of it cannot be: %s", e.getMessage());
    }
  }

  private void compare(Cut again) {
    if (detectorVersion == Cut.DETECTOR_VERSION) {
      CutFigures.ATTRIBUTES.forEach(a -> compare(a, again));
    } else {
      compareWithOther(again);
    }
  }

  private void compare(Attribute<CutFigures> attribute, Cut again) {
    if (!attribute.value(cut.figures()).equals(attribute.value(again.figures()))) {
      differ(
          "%s is %s, the trace gives %s",
          attribute.name(), told(attribute, cut), told(attribute, again));
    }
  }

  private static Object told(Attribute<CutFigures> attribute, Cut cut) {
    return attribute.told(cut.figures()).orElse("none");
  }

  /** Another version may see the same event somewhat otherwise. */
  private void compareWithOther(Cut again) {
    if (cut.peak().isEmpty() || again.peak().isEmpty()) {
      return;
    }
    double stated = cut.peak().get().estimateCounts();
    double counts = again.peak().get().estimateCounts();
    if (!(Math.abs(stated - counts) <= OTHER_DETECTOR * Math.abs(counts))) {
      differ(
          "estimate_counts is %s by detector version %d, version %d makes %s of the trace",
          stated, detectorVersion, Cut.DETECTOR_VERSION, counts);
    }
  }
}
