package snick.force.reading;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.force.mass.Load;
import snick.phrase.Phrase;

/** Decides whether a steady reading can be what the step asked for. */
final class ReadingJudge {
  private static final double STANDARD_ERRORS = 6;
  private static final double FEWEST_COUNTS = 2;
  private static final double MASS_TOLERANCE = 0.10;
  private static final double SMALLEST_SHARE = 0.01;

  private final GuidedState state;
  private final int polarity;

  ReadingJudge(GuidedState state) {
    this.state = state;
    this.polarity = state.setting().polarity();
  }

  /** Why the reading cannot count, if so. */
  Optional<GuidedCalibration.Refused> objection(CalibrationPlan.Step step, HeldReading reading) {
    if (step instanceof CalibrationPlan.Step.PutOn on) {
      return objectionToLoad(on, reading);
    }
    return step instanceof CalibrationPlan.Step.Unload && !state.current().isEmpty()
        ? objectionToZero(reading)
        : Optional.empty();
  }

  private static GuidedCalibration.Refused refused(
      GuidedCalibration.Refused.Cause cause, Phrase message, Phrase remedy) {
    return new GuidedCalibration.Refused(cause, message, remedy);
  }

  private Optional<GuidedCalibration.Refused> objectionToLoad(
      CalibrationPlan.Step.PutOn on, HeldReading reading) {
    HeldReading before = state.current().get(state.current().size() - 1);
    double change = polarity * (reading.meanCounts() - before.meanCounts());
    double doubt = Math.max(FEWEST_COUNTS, STANDARD_ERRORS * standardError(before, reading));
    if (Math.abs(change) <= doubt) {
      return Optional.of(
          refused(
              GuidedCalibration.Refused.Cause.SAME_READING_TWICE,
              Phrase.of("held.same", "change", text("%.1f", change), "limit", text("%.1f", doubt)),
              Phrase.of("held.same_do", "load", on.load().name())));
    }
    boolean rising = on.direction() == Direction.UP;
    if (change > 0 != rising) {
      return Optional.of(
          refused(
              GuidedCalibration.Refused.Cause.WRONG_DIRECTION,
              Phrase.of("held.wrong_direction", "change", text("%.0f", change)),
              Phrase.of("held.wrong_direction_do")));
    }
    double deflection = polarity * (reading.meanCounts() - state.current().get(0).meanCounts());
    Optional<GuidedCalibration.Refused> small = underOnePercent(deflection);
    return small.isPresent() ? small : notAsAnnounced(on.load(), deflection, doubt);
  }

  private Optional<GuidedCalibration.Refused> underOnePercent(double deflection) {
    double largest = 0;
    for (CalibrationRun run : state.done()) {
      for (CalibrationRun.Loaded loaded : run.loaded()) {
        largest = Math.max(largest, run.deflectionCounts(loaded, polarity));
      }
    }
    return deflection >= SMALLEST_SHARE * largest
        ? Optional.empty()
        : Optional.of(
            refused(
                GuidedCalibration.Refused.Cause.UNDER_ONE_PERCENT,
                Phrase.of("held.too_small")
                    .with("deflection", text("%.0f", deflection))
                    .with("range", text("%.0f", largest)),
                Phrase.of("held.too_small_do")));
  }

  private Optional<GuidedCalibration.Refused> notAsAnnounced(
      Load load, double deflection, double doubt) {
    OptionalDouble perGram = countsPerGram();
    if (perGram.isEmpty()) {
      return Optional.empty();
    }
    double expected = perGram.getAsDouble() * load.nominalGrams();
    if (Math.abs(deflection - expected) <= MASS_TOLERANCE * expected + doubt) {
      return Optional.empty();
    }
    return Optional.of(
        refused(
            GuidedCalibration.Refused.Cause.NOT_AS_ANNOUNCED,
            Phrase.of("held.another_mass")
                .with("seen", text("%.4g", deflection / perGram.getAsDouble()))
                .with("asked", text("%.4g", load.nominalGrams())),
            Phrase.of("held.another_mass_do")));
  }

  /** Sensitivity from the last accepted load: of this run, else of the last one. */
  private OptionalDouble countsPerGram() {
    int taken = state.current().size();
    CalibrationPlan plan = state.plan();
    if (taken > 1 && plan.runSteps().get(taken - 1) instanceof CalibrationPlan.Step.PutOn last) {
      double zero = state.current().get(0).meanCounts();
      double deflection = polarity * (state.current().get(taken - 1).meanCounts() - zero);
      return OptionalDouble.of(deflection / last.load().nominalGrams());
    }
    if (state.done().isEmpty()) {
      return OptionalDouble.empty();
    }
    CalibrationRun run = state.done().get(state.done().size() - 1);
    return run.loaded().stream()
        .filter(l -> l.load().equals(plan.largest()))
        .mapToDouble(l -> run.deflectionCounts(l, polarity) / l.load().nominalGrams())
        .findFirst();
  }

  /** The zero after a run must have come back nearly to the zero before. */
  private Optional<GuidedCalibration.Refused> objectionToZero(HeldReading reading) {
    double zero = state.current().get(0).meanCounts();
    double left = Math.abs(reading.meanCounts() - zero);
    double smallest = Math.abs(state.current().get(1).meanCounts() - zero);
    return left < smallest / 2
        ? Optional.empty()
        : Optional.of(
            refused(
                GuidedCalibration.Refused.Cause.STILL_LOADED,
                Phrase.of("held.still_loaded", "counts", text("%.0f", left)),
                Phrase.of("held.still_loaded_do")));
  }

  private static double standardError(HeldReading a, HeldReading b) {
    return Math.hypot(a.sdCounts() / Math.sqrt(a.samples()), b.sdCounts() / Math.sqrt(b.samples()));
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
