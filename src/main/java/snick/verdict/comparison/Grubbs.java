package snick.verdict.comparison;

import java.util.Optional;
import org.apache.commons.statistics.distribution.TDistribution;
import snick.verdict.statistic.Readings;

/**
 * Grubbs' two-sided test of the reading farthest from the mean (F. E. Grubbs, Technometrics 11,
 * 1969; NIST/SEMATECH e-Handbook 1.3.5.17.1). A flagged reading is kept.
 *
 * @param valueGf that reading, gf
 * @param g its distance from the mean in standard deviations
 * @param criticalOneSided 5 % limit of g if the side had been chosen beforehand
 * @param criticalTwoSided 5 % limit of g
 * @param p two-sided p, an upper bound (Bonferroni)
 */
public record Grubbs(
    double valueGf, double g, double criticalOneSided, double criticalTwoSided, double p) {
  /** Fewest readings with which a reading can stand out. */
  public static final int LEAST = 3;

  /** Empty with fewer than 3 readings or if all are equal. */
  public static Optional<Grubbs> of(Readings readings) {
    if (readings.count() < LEAST || readings.allEqual()) {
      return Optional.empty();
    }
    double[] values = readings.gramForce();
    double mean = readings.meanGf();
    int farthest = 0;
    for (int i = 1; i < values.length; i++) {
      farthest = Math.abs(values[i] - mean) > Math.abs(values[farthest] - mean) ? i : farthest;
    }
    double g = Math.abs(values[farthest] - mean) / readings.sdGf();
    return Optional.of(
        new Grubbs(
            values[farthest],
            g,
            critical(values.length, Comparison.SIGNIFICANCE),
            critical(values.length, Comparison.SIGNIFICANCE / 2),
            pValue(values.length, g)));
  }

  /** Whether the reading stands out at 5 %, two-sided. */
  public boolean flagged() {
    return g > criticalTwoSided;
  }

  /**
   * Limit of g for {@code n} readings.
   *
   * @param tail error of one tail
   */
  public static double critical(int n, double tail) {
    double t = TDistribution.of(n - 2).inverseSurvivalProbability(tail / n);
    return (n - 1) / Math.sqrt(n) * Math.sqrt(t * t / (n - 2 + t * t));
  }

  private static double pValue(int n, double g) {
    double squared = g * g * n / ((n - 1.0) * (n - 1.0));
    if (squared >= 1) {
      return 0;
    }
    double t = Math.sqrt((n - 2) * squared / (1 - squared));
    return Math.min(1, 2 * n * TDistribution.of(n - 2).survivalProbability(t));
  }
}
