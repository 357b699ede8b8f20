package snick.force.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * The same load reached from below and from above in one run.
 *
 * @param up rising
 * @param down falling
 */
public record Reversal(Deflection up, Deflection down) {
  /** All pairs that {@code deflections} hold. */
  public static List<Reversal> pairs(List<Deflection> deflections) {
    List<Reversal> pairs = new ArrayList<>();
    for (Deflection down : deflections) {
      for (Deflection up : deflections) {
        if (down.direction() == Direction.DOWN
            && up.direction() == Direction.UP
            && up.run() == down.run()
            && up.newtons() == down.newtons()) {
          pairs.add(new Reversal(up, down));
        }
      }
    }
    return List.copyOf(pairs);
  }

  /** Falling less rising, counts. */
  double changeCounts() {
    return down.counts() - up.counts();
  }

  /** Size of the change in proportion to the rising deflection. */
  public double relative() {
    return Math.abs(changeCounts()) / up.counts();
  }

  /**
   * Change in proportion to deflection over all loads: the sizes of the mean changes at each load,
   * summed, over the sum of deflections. Scatter of single loadings cancels in the means.
   */
  public static double pooledRelative(List<Reversal> pairs) {
    Map<Double, Double> changes = new TreeMap<>();
    double deflection = 0;
    for (Reversal pair : pairs) {
      changes.merge(pair.up().newtons(), pair.changeCounts(), Double::sum);
      deflection += pair.up().counts();
    }
    return changes.values().stream().mapToDouble(Math::abs).sum() / deflection;
  }
}
