package snick.frame.text;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Steps from line to line of a column that may be time. A rig makes 5 to 3500 readings a second, so
 * that a step is 280 µs to 200 ms: the unit follows from the size of the steps.
 *
 * @param median the median step
 * @param backward steps back
 * @param upward steps that are neither 0 nor back
 * @param steps all steps
 * @param even whether most upward steps are near the median
 */
record SampleSteps(double median, int backward, int upward, int steps, boolean even) {
  private static final double LONGEST_SECONDS = 0.2;
  private static final double SHORTEST_SECONDS = 2e-4;

  /**
   * So near to an end of the range a step may be meant in the next unit: a factor (an assumption).
   */
  private static final double DOUBT = 1.4;

  /** A step within this factor of the median is near it (an assumption). */
  private static final double NEAR = 3;

  static SampleSteps of(List<Double> values) {
    List<Double> steps = new ArrayList<>();
    for (int i = 1; i < values.size(); i++) {
      steps.add(values.get(i) - values.get(i - 1));
    }
    Collections.sort(steps);
    double median = steps.get(steps.size() / 2);
    long near =
        steps.stream().filter(step -> step * NEAR >= median && step <= median * NEAR).count();
    return new SampleSteps(
        median,
        (int) steps.stream().filter(step -> step < 0).count(),
        (int) steps.stream().filter(step -> step > 0).count(),
        steps.size(),
        near * 2 >= steps.size());
  }

  /** Whether they are steps of a clock: upward and alike, but for one restart. */
  boolean rising() {
    return median > 0 && backward <= 1 && even && upward * 2 > steps;
  }

  /** Whether each line has the next whole number. */
  boolean countsLines() {
    return rising() && median == 1 && upward == steps;
  }

  Optional<Column> ifRising(Column unit) {
    return rising() ? Optional.of(unit) : Optional.empty();
  }

  /**
   * The unit of time in which the step is one of a rig; empty if in none, or if it may be in two.
   *
   * @param named whether the column is said to be a time: then a step of 1 is no number of lines
   */
  Optional<Column> unit(boolean named) {
    if (!rising() || (median == 1 && !named)) {
      return Optional.empty();
    }
    for (Column unit : List.of(Column.TIME_S, Column.TIME_MS, Column.TIME_US)) {
      double seconds = median * unit.microsPerUnit() / 1e6;
      if (seconds >= SHORTEST_SECONDS * DOUBT && seconds <= LONGEST_SECONDS) {
        return Optional.of(unit);
      }
    }
    return Optional.empty();
  }

  String words() {
    return median == Math.rint(median)
        ? String.format(Locale.ROOT, "about %.0f", median)
        : String.format(Locale.ROOT, "about %.4g", median);
  }
}
