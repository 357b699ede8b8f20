package snick.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import snick.force.budget.Calibration;
import snick.json.Json;
import snick.live.LiveTrace;

/**
 * Samples as points for a plot: in gf if there is a calibration, else in counts above rest. Of many
 * samples the smallest and the largest of each stretch are kept, so that no peak is lost. Pure.
 *
 * @param rig number of the rig
 * @param zeroCounts reading at rest, counts
 * @param polarity +1 if load raises the reading, −1 if it lowers it
 * @param calibration gives forces, if there is one
 */
public record TraceJson(
    int rig, double zeroCounts, int polarity, Optional<Calibration> calibration) {
  /** The points of {@code slice}, at most {@code most}. */
  public String of(LiveTrace.Slice slice, int most) {
    List<Object> times = new ArrayList<>();
    List<Object> values = new ArrayList<>();
    DoubleUnaryOperator scale = scale();
    int stretch = Math.max(1, (int) Math.ceil(2.0 * slice.size() / most));
    for (int i = 0; i < slice.size(); i += stretch) {
      add(slice, i, Math.min(slice.size(), i + stretch), scale, times, values);
    }
    return Json.text(
        Json.object(
            "rig", rig,
            "unit", calibration.isPresent() ? "gf" : "counts",
            "t", times,
            "v", values));
  }

  private DoubleUnaryOperator scale() {
    return calibration
        .<DoubleUnaryOperator>map(
            c -> counts -> rounded(c.force(above(counts), 0).value().gramForce()))
        .orElse(counts -> Math.rint(above(counts)));
  }

  private double above(double counts) {
    return polarity * (counts - zeroCounts);
  }

  private static double rounded(double gramForce) {
    return Math.rint(gramForce * 100) / 100;
  }

  private static void add(
      LiveTrace.Slice slice,
      int from,
      int to,
      DoubleUnaryOperator scale,
      List<Object> times,
      List<Object> values) {
    int low = from;
    int high = from;
    boolean gap = false;
    for (int i = from; i < to; i++) {
      low = slice.counts(i) < slice.counts(low) ? i : low;
      high = slice.counts(i) > slice.counts(high) ? i : high;
      gap |= slice.afterGap(i);
    }
    if (gap) {
      times.add(seconds(slice, from));
      values.add(null);
    }
    for (int i = Math.min(low, high);
        i <= Math.max(low, high);
        i += Math.max(1, Math.abs(high - low))) {
      times.add(seconds(slice, i));
      values.add(scale.applyAsDouble(slice.counts(i)));
    }
  }

  private static double seconds(LiveTrace.Slice slice, int i) {
    return Math.rint(slice.deviceNanos(i) / 1e5) / 1e4;
  }
}
