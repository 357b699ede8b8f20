package snick.force.budget;

import java.util.ArrayList;
import java.util.List;

/**
 * The uncertainty of one force, source by source.
 *
 * @param newtons the force, N
 * @param parts contributions of all sources
 */
public record CombinedUncertainty(double newtons, List<Contribution> parts) {
  public CombinedUncertainty {
    parts = List.copyOf(parts);
  }

  /**
   * The budget over the range of a calibration.
   *
   * @param points number of forces, evenly spaced, the last at the end of the range; 1 to 10000
   * @param peakStandardUncertaintyCounts uncertainty of a peak to include, counts; 0 for none
   */
  public static List<CombinedUncertainty> over(
      Calibration calibration, int points, double peakStandardUncertaintyCounts) {
    if (points < 1 || points > 10_000) {
      throw new IllegalArgumentException(points + " points: 1 to 10000 allowed");
    }
    double from = calibration.range().from().newtons();
    double to = calibration.range().to().newtons();
    List<CombinedUncertainty> table = new ArrayList<>();
    for (int i = 1; i <= points; i++) {
      double newtons = from + (to - from) * i / points;
      table.add(
          new CombinedUncertainty(
              newtons, calibration.contributions(newtons, peakStandardUncertaintyCounts)));
    }
    return List.copyOf(table);
  }

  /** Combined standard uncertainty, N. */
  public double standardNewtons() {
    return Contribution.combined(parts);
  }

  /** Effective degrees of freedom, may be infinite. */
  public double degreesOfFreedom() {
    return Contribution.effectiveDegreesOfFreedom(parts);
  }

  /** Coverage factor for 95 %. */
  public double coverageFactor() {
    return Coverage.factor(Coverage.USUAL_PROBABILITY, degreesOfFreedom());
  }

  /** Expanded uncertainty for 95 %, N. */
  public double expandedNewtons() {
    return coverageFactor() * standardNewtons();
  }
}
