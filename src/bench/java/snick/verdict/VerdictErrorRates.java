package snick.verdict;

import java.io.PrintStream;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Random;
import java.util.function.DoubleSupplier;
import snick.verdict.comparison.Change;
import snick.verdict.comparison.Judge;
import snick.verdict.comparison.RigRepeatability;
import snick.verdict.statistic.Readings;

/**
 * Prints how often verdicts err: when looked at after every cut, with skewed scatter and groups of
 * unequal size; and what the paired test gains where places differ. Every scatter is an assumption,
 * seeds are fixed. Run: {@code java -cp target/classes:target/test-classes:<dependencies>
 * snick.verdict.VerdictErrorRates [trials]}.
 */
public final class VerdictErrorRates {
  static final int FIRST_LOOK = 3;
  static final int LAST_LOOK = 12;

  private static final int TRIALS = 20_000;
  private static final long SEED = 5;
  private static final double MEAN_GF = 100;
  private static final double SCATTER = 8;
  private static final double MARGIN_GF = 10;

  private VerdictErrorRates() {}

  /** Optional argument: trials of each kind. */
  public static void main(String[] args) {
    print(System.out, args.length == 0 ? TRIALS : Integer.parseInt(args[0]));
  }

  static void print(PrintStream out, int trials) {
    out.printf(Locale.ROOT, "%d trials of each kind, seed %d; shares in %%%n", trials, SEED);
    line(out, "false difference, one look at 12", looked(12, OptionalInt.empty(), trials));
    line(out, "false difference, looks at 3 to 12", looked(3, OptionalInt.empty(), trials));
    line(out, "the same, 12 planned", looked(3, OptionalInt.of(12), trials));
    line(out, "false equivalence, one look at 12", plateau(12, OptionalInt.empty(), trials));
    line(out, "false equivalence, looks at 3 to 12", plateau(3, OptionalInt.empty(), trials));
    line(out, "the same, 12 planned", plateau(3, OptionalInt.of(12), trials));
    line(
        out,
        "false plateau, margin of the rig, looks 3 to 12",
        rigPlateau(3, OptionalInt.empty(), trials));
    line(out, "the same, 12 planned", rigPlateau(3, OptionalInt.of(12), trials));
    int[][] sizes = {{5, 5}, {3, 10}, {10, 3}, {4, 12}, {5, 20}, {3, 30}};
    for (int[] n : sizes) {
      String cuts = n[0] + " and " + n[1] + " cuts, ";
      line(out, cuts + "skewed alike", skewed(n[0], n[1], 1, trials));
      line(out, cuts + "skewed, second scatters half", skewed(n[0], n[1], 0.5, trials));
      line(out, cuts + "skewed, second scatters twice", skewed(n[0], n[1], 2, trials));
    }
    line(out, "power by place, 6 places", byPlace(true, 8, trials));
    line(out, "power of the same, places forgotten", byPlace(false, 8, trials));
    line(out, "false difference by place, 6 places", byPlace(true, 0, trials));
  }

  private static void line(PrintStream out, String what, double share) {
    out.printf(Locale.ROOT, "%-48s %6.1f%n", what, 100 * share);
  }

  /**
   * Share of unchanged edges with a difference at some look, from {@code first} to 12 cuts each.
   */
  static double looked(int first, OptionalInt planned, int trials) {
    Judge judge = new Judge(OptionalDouble.empty(), Optional.empty(), planned);
    Random random = new Random(SEED);
    return claimed(judge, first, trials, () -> normal(random), () -> normal(random), false);
  }

  /** Share of edges that differ by the margin and are called equivalent at some look. */
  static double plateau(int first, OptionalInt planned, int trials) {
    Judge judge = new Judge(OptionalDouble.of(MARGIN_GF), Optional.empty(), planned);
    Random random = new Random(SEED);
    return claimed(
        judge, first, trials, () -> normal(random), () -> normal(random) - MARGIN_GF, true);
  }

  /**
   * Share of pairs of stages that differ by what 12 cuts of the rig would show and are called a
   * plateau at some look, without a margin of one's own.
   */
  static double rigPlateau(int first, OptionalInt planned, int trials) {
    RigRepeatability rig = new RigRepeatability(SCATTER, 19, "simulated study");
    double step = rig.smallestShownDifferenceGf(LAST_LOOK);
    Random random = new Random(SEED);
    int claimed = 0;
    for (int i = 0; i < trials; i++) {
      Readings a = readings("a", LAST_LOOK, () -> normal(random));
      Readings b = readings("b", LAST_LOOK, () -> normal(random) - step);
      boolean found = false;
      for (int n = first; n <= LAST_LOOK && !found; n++) {
        double margin = rig.smallestShownDifferenceGf(planned.orElse(n));
        Judge judge = new Judge(OptionalDouble.of(margin), Optional.of(rig), planned);
        found = judge.verdict(a.first(n), b.first(n)) == Change.EQUIVALENT;
      }
      claimed += found ? 1 : 0;
    }
    return (double) claimed / trials;
  }

  private static double normal(Random random) {
    return MEAN_GF + SCATTER * random.nextGaussian();
  }

  private static double claimed(
      Judge judge,
      int first,
      int trials,
      DoubleSupplier one,
      DoubleSupplier other,
      boolean equivalence) {
    int claimed = 0;
    for (int i = 0; i < trials; i++) {
      Readings a = readings("a", LAST_LOOK, one);
      Readings b = readings("b", LAST_LOOK, other);
      boolean found = false;
      for (int n = first; n <= LAST_LOOK && !found; n++) {
        Change change = judge.verdict(a.first(n), b.first(n));
        found =
            equivalence
                ? change == Change.EQUIVALENT
                : change == Change.LOWER || change == Change.HIGHER;
      }
      claimed += found ? 1 : 0;
    }
    return (double) claimed / trials;
  }

  /**
   * Share of false differences between groups of one mean with exponential scatter, skewness 2, the
   * second scattering {@code scale} times as much.
   */
  static double skewed(int first, int second, double scale, int trials) {
    Random random = new Random(SEED);
    DoubleSupplier skewed = () -> -Math.log(1 - random.nextDouble()) - 1;
    int wrong = 0;
    for (int i = 0; i < trials; i++) {
      Readings a = readings("a", first, skewed);
      Readings b = readings("b", second, () -> scale * skewed.getAsDouble());
      Change change = Judge.plain().verdict(a, b);
      wrong += change == Change.LOWER || change == Change.HIGHER ? 1 : 0;
    }
    return (double) wrong / trials;
  }

  /**
   * Share shown lower of a fall of {@code fallGf} over 6 places that differ by 20 gf, noise 4 gf.
   */
  static double byPlace(boolean known, double fallGf, int trials) {
    Random random = new Random(SEED);
    int shown = 0;
    for (int i = 0; i < trials; i++) {
      double[] places = {10, 30, 50, 70, 90, 110};
      double[] edge = random.doubles(6).map(u -> MEAN_GF + 20 * random.nextGaussian()).toArray();
      Readings a = cuts("a", edge, 0, random);
      Readings b = cuts("b", edge, -fallGf, random);
      Change change =
          known ? Judge.plain().verdict(a.at(places), b.at(places)) : Judge.plain().verdict(a, b);
      boolean found = fallGf > 0 ? change == Change.LOWER : change != Change.NO_DIFFERENCE_SHOWN;
      shown += found ? 1 : 0;
    }
    return (double) shown / trials;
  }

  private static Readings cuts(String name, double[] edge, double shift, Random random) {
    double[] cuts = edge.clone();
    for (int i = 0; i < cuts.length; i++) {
      cuts[i] += shift + 4 * random.nextGaussian();
    }
    return Readings.ofGramForce(name, cuts);
  }

  private static Readings readings(String name, int count, DoubleSupplier each) {
    return Readings.ofGramForce(
        name, java.util.stream.DoubleStream.generate(each).limit(count).toArray());
  }
}
