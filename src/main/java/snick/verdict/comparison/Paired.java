package snick.verdict.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.apache.commons.statistics.distribution.TDistribution;
import org.apache.commons.statistics.inference.PValueMethod;
import org.apache.commons.statistics.inference.WilcoxonSignedRankTest;
import snick.verdict.statistic.Interval;
import snick.verdict.statistic.Readings;

/**
 * Student's paired t-test of second minus first over places that both groups cut, and Wilcoxon's
 * signed ranks beside it. Whether pairs decide hangs on the places alone, never on a force, so it
 * is settled before anybody looks: at least {@value #LEAST} places in common, and no more than one
 * place in five of either group without its fellow. A place cut more than once counts with its
 * mean.
 *
 * @param pairs places in common
 * @param differenceGf mean difference, gf
 * @param sdGf standard deviation of the differences (n − 1), above 0
 * @param t statistic
 * @param p two-sided, of the t-test
 * @param signedRankP two-sided, of the signed ranks: exact without ties
 * @param outlier the difference farthest out, if Grubbs' test can be made
 */
public record Paired(
    int pairs,
    double differenceGf,
    double sdGf,
    double t,
    double p,
    double signedRankP,
    Optional<Grubbs> outlier) {
  /** Fewest places in common with which pairs decide; common practice, no source. */
  public static final int LEAST = 4;

  private static final double SAME_PLACE_MM = 1;
  private static final double COMMON_SHARE = 0.8;

  /** Empty unless both groups cut the same places, and if all differences are the same. */
  static Optional<Paired> of(Readings first, Readings second) {
    List<Spot> before = spots(first);
    List<Spot> after = spots(second);
    double[] differences = differences(before, after);
    boolean same =
        differences.length >= LEAST
            && differences.length >= COMMON_SHARE * Math.max(before.size(), after.size());
    return same ? of(differences) : Optional.empty();
  }

  private static Optional<Paired> of(double... differences) {
    Readings each = Readings.ofGramForce("differences", differences);
    if (each.allEqual()) {
      return Optional.empty();
    }
    int n = differences.length;
    double t = each.meanGf() / (each.sdGf() / Math.sqrt(n));
    return Optional.of(
        new Paired(
            n,
            each.meanGf(),
            each.sdGf(),
            t,
            2 * TDistribution.of(n - 1).survivalProbability(Math.abs(t)),
            WilcoxonSignedRankTest.withDefaults()
                .with(n <= 1000 ? PValueMethod.EXACT : PValueMethod.AUTO)
                .test(differences)
                .getPValue(),
            Grubbs.of(each)));
  }

  /** Standard error of the mean difference, gf. */
  double standardErrorGf() {
    return sdGf / Math.sqrt(pairs);
  }

  /** Its 95 % t interval, gf. */
  public Interval ci95Gf() {
    double half = TDistribution.of(pairs - 1).inverseSurvivalProbability(0.025) * standardErrorGf();
    return new Interval(differenceGf - half, differenceGf + half, 0.95);
  }

  private record Spot(double placeMm, double meanGf) {}

  /** Places of {@code readings} with their mean; none unless the place of every cut is known. */
  private static List<Spot> spots(Readings readings) {
    double[] places = readings.placesMm();
    double[] forces = readings.gramForce();
    List<Spot> spots = new ArrayList<>();
    boolean[] taken = new boolean[places.length];
    for (int i = 0; i < places.length; i++) {
      if (!taken[i]) {
        double place = places[i];
        int[] here =
            IntStream.range(i, places.length)
                .filter(k -> !taken[k] && Math.abs(places[k] - place) < SAME_PLACE_MM)
                .toArray();
        IntStream.of(here).forEach(k -> taken[k] = true);
        spots.add(
            new Spot(place, IntStream.of(here).mapToDouble(k -> forces[k]).average().orElse(0)));
      }
    }
    return spots;
  }

  private static double[] differences(List<Spot> before, List<Spot> after) {
    List<Spot> left = new ArrayList<>(after);
    List<Double> differences = new ArrayList<>();
    for (Spot spot : before) {
      left.stream()
          .filter(s -> Math.abs(s.placeMm() - spot.placeMm()) < SAME_PLACE_MM)
          .findFirst()
          .ifPresent(
              s -> {
                left.remove(s);
                differences.add(s.meanGf() - spot.meanGf());
              });
    }
    return differences.stream().mapToDouble(d -> d).toArray();
  }
}
