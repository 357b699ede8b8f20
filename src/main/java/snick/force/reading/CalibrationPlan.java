package snick.force.reading;

import java.util.ArrayList;
import java.util.List;
import snick.force.mass.Load;
import snick.force.mass.Range;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/**
 * What to put on the cell, in which order. Each run: no load, the loads rising, the loads falling
 * without the largest, no load. The zero after a run is the zero before the next.
 *
 * @param loads two to twenty loads, rising
 * @param runs one to twenty
 * @param falling whether loads are read falling too
 * @param holdSeconds how long the largest load rests at the end for creep, 0 to 3600 s; 0 for no
 *     hold
 */
public record CalibrationPlan(List<Load> loads, int runs, boolean falling, double holdSeconds) {
  private static final double SMALLEST_SHARE = 0.01;

  public CalibrationPlan {
    loads = List.copyOf(loads);
    if (loads.size() < 2 || loads.size() > 20) {
      throw new NotAccepted("refused.number_of_loads", "n", loads.size());
    }
    if (runs < 1 || runs > 20) {
      throw new NotAccepted("refused.number_of_runs", "n", runs);
    }
    Range.require("hold", holdSeconds, 0, 3600, "s");
    requireRising(loads);
    requireLargeEnough(loads);
  }

  private static void requireRising(List<Load> loads) {
    for (int i = 1; i < loads.size(); i++) {
      if (!(loads.get(i).nominalGrams() > loads.get(i - 1).nominalGrams())) {
        throw new NotAccepted(
            Phrase.of("refused.loads_do_not_rise")
                .with("load", loads.get(i).name())
                .with("before", loads.get(i - 1).name()));
      }
    }
  }

  private static void requireLargeEnough(List<Load> loads) {
    Load largest = loads.get(loads.size() - 1);
    double share = loads.get(0).nominalGrams() / largest.nominalGrams();
    if (!(share >= SMALLEST_SHARE)) {
      throw new NotAccepted(
          "refused.load_too_small", "load", loads.get(0).name(), "largest", largest.name());
    }
  }

  /** The largest load. */
  public Load largest() {
    return loads.get(loads.size() - 1);
  }

  /** What a person does next. */
  public sealed interface Step {
    /** Take everything off. */
    record Unload() implements Step {}

    /** Have this load, and nothing else, on the cell. */
    record PutOn(Load load, Direction direction) implements Step {}

    /** Put this load on and leave it resting. */
    record Rest(Load load, double seconds) implements Step {}
  }

  /** The steps of one run, in order: as many readings. */
  public List<Step> runSteps() {
    List<Step> steps = new ArrayList<>();
    steps.add(new Step.Unload());
    for (Load load : loads) {
      steps.add(new Step.PutOn(load, Direction.UP));
    }
    for (int i = loads.size() - 2; falling && i >= 0; i--) {
      steps.add(new Step.PutOn(loads.get(i), Direction.DOWN));
    }
    steps.add(new Step.Unload());
    return List.copyOf(steps);
  }

  /** A run from its readings, one for each of {@link #runSteps}. */
  CalibrationRun run(List<HeldReading> readings) {
    List<Step> steps = runSteps();
    List<CalibrationRun.Loaded> loaded = new ArrayList<>();
    for (int i = 1; i < steps.size() - 1; i++) {
      if (steps.get(i) instanceof Step.PutOn on) {
        loaded.add(new CalibrationRun.Loaded(on.load(), on.direction(), readings.get(i)));
      }
    }
    return new CalibrationRun(readings.get(0), loaded, readings.get(steps.size() - 1));
  }
}
