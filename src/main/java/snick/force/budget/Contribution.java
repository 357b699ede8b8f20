package snick.force.budget;

import java.util.List;
import snick.force.mass.Distribution;

/**
 * What one source contributes to the uncertainty of one force.
 *
 * @param source what is uncertain
 * @param distribution assumed distribution
 * @param standardUncertaintyNewtons standard uncertainty times sensitivity, N, not negative
 * @param degreesOfFreedom above 0, may be infinite
 */
public record Contribution(
    BudgetTerm.Source source,
    Distribution distribution,
    double standardUncertaintyNewtons,
    double degreesOfFreedom) {
  public Contribution {
    if (!(standardUncertaintyNewtons >= 0) || !(degreesOfFreedom > 0)) {
      throw new IllegalArgumentException(
          "%s: standard uncertainty %s N with %s degrees of freedom"
              .formatted(source.word(), standardUncertaintyNewtons, degreesOfFreedom));
    }
  }

  /** Combined standard uncertainty, N: root of the sum of squares, JCGM 100:2008 equation (10). */
  public static double combined(List<Contribution> parts) {
    return Math.sqrt(
        parts.stream()
            .mapToDouble(p -> p.standardUncertaintyNewtons * p.standardUncertaintyNewtons)
            .sum());
  }

  /**
   * Effective degrees of freedom by Welch and Satterthwaite, JCGM 100:2008 equation (G.2b); not
   * truncated; infinite if no part has a finite number.
   */
  public static double effectiveDegreesOfFreedom(List<Contribution> parts) {
    double combined = combined(parts);
    double sum = 0;
    for (Contribution part : parts) {
      sum += Math.pow(part.standardUncertaintyNewtons / combined, 4) / part.degreesOfFreedom;
    }
    return sum > 0 ? 1 / sum : Double.POSITIVE_INFINITY;
  }
}
