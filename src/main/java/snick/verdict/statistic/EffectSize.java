package snick.verdict.statistic;

import java.util.Optional;
import org.apache.commons.numbers.gamma.LogGamma;

/**
 * Standardised difference, second minus first, over the pooled standard deviation: Hedges' g is
 * Cohen's d times the exact small-sample factor J = Γ(ν/2)/(√(ν/2) Γ((ν−1)/2)) (L. V. Hedges, J.
 * Educ. Stat. 6, 1981).
 *
 * @param cohensD without the factor
 * @param hedgesG with it
 * @param ci95 95 % interval of g: that of the noncentral t distribution, times J
 */
public record EffectSize(double cohensD, double hedgesG, Interval ci95) {

  /**
   * What is asked of a group.
   *
   * @param n number of readings, 2 or more
   * @param meanGf their mean, gf
   * @param sdGf their standard deviation (n − 1), gf; 0 if all are equal
   */
  public record Group(int n, double meanGf, double sdGf) {
    private double squares() {
      return (n - 1) * sdGf * sdGf;
    }
  }

  /** Empty if neither group scatters. */
  public static Optional<EffectSize> of(Group first, Group second) {
    if (first.sdGf() == 0 && second.sdGf() == 0) {
      return Optional.empty();
    }
    double df = first.n() + second.n() - 2;
    double d = (second.meanGf() - first.meanGf()) / pooledSdGf(first, second);
    double perStandardError = Math.sqrt(1.0 / first.n() + 1.0 / second.n());
    double t = d / perStandardError;
    double j = smallSampleFactor(df);
    return Optional.of(
        new EffectSize(
            d,
            j * d,
            new Interval(
                j * perStandardError * NoncentralT.noncentralityAt(t, df, 0.975),
                j * perStandardError * NoncentralT.noncentralityAt(t, df, 0.025),
                0.95)));
  }

  private static double pooledSdGf(Group first, Group second) {
    return Math.sqrt((first.squares() + second.squares()) / (first.n() + second.n() - 2));
  }

  public static double smallSampleFactor(double df) {
    return Math.exp(LogGamma.value(df / 2) - LogGamma.value((df - 1) / 2)) / Math.sqrt(df / 2);
  }
}
