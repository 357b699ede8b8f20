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

  /** Empty if neither group scatters. */
  public static Optional<EffectSize> of(Readings first, Readings second) {
    if (first.allEqual() && second.allEqual()) {
      return Optional.empty();
    }
    double df = first.count() + second.count() - 2;
    double d = (second.meanGf() - first.meanGf()) / pooledSdGf(first, second);
    double perStandardError = Math.sqrt(1.0 / first.count() + 1.0 / second.count());
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

  public static double pooledSdGf(Readings first, Readings second) {
    double squares =
        (first.count() - 1) * first.sdGf() * first.sdGf()
            + (second.count() - 1) * second.sdGf() * second.sdGf();
    return Math.sqrt(squares / (first.count() + second.count() - 2));
  }

  public static double smallSampleFactor(double df) {
    return Math.exp(LogGamma.value(df / 2) - LogGamma.value((df - 1) / 2)) / Math.sqrt(df / 2);
  }
}
