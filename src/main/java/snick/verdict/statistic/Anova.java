package snick.verdict.statistic;

import java.util.List;
import org.apache.commons.statistics.descriptive.Mean;
import org.apache.commons.statistics.descriptive.SumOfSquares;
import org.apache.commons.statistics.distribution.FDistribution;

/**
 * One-way analysis of variance. Sums of squares are taken about the means, after the grand mean has
 * been subtracted, so that leading digits common to all readings do no harm.
 *
 * @param squaresBetween sum of squares between groups
 * @param dfBetween groups − 1
 * @param squaresWithin sum of squares within groups
 * @param dfWithin readings − groups
 */
public record Anova(double squaresBetween, int dfBetween, double squaresWithin, int dfWithin) {

  /** Of two groups or more, with at least one reading each and more readings than groups. */
  public static Anova of(List<double[]> groups) {
    double[] all = groups.stream().flatMapToDouble(java.util.Arrays::stream).toArray();
    double grand = Mean.of(all).getAsDouble();
    double between = 0;
    double within = 0;
    for (double[] group : groups) {
      double[] centred = java.util.Arrays.stream(group).map(v -> v - grand).toArray();
      double mean = Mean.of(centred).getAsDouble();
      between += group.length * mean * mean;
      within +=
          SumOfSquares.of(java.util.Arrays.stream(centred).map(v -> v - mean).toArray())
              .getAsDouble();
    }
    return new Anova(between, groups.size() - 1, within, all.length - groups.size());
  }

  public double meanSquareBetween() {
    return squaresBetween / dfBetween;
  }

  public double meanSquareWithin() {
    return squaresWithin / dfWithin;
  }

  public double f() {
    return meanSquareBetween() / meanSquareWithin();
  }

  public double p() {
    return FDistribution.of(dfBetween, dfWithin).survivalProbability(f());
  }
}
