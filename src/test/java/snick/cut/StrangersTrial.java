package snick.cut;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import snick.cut.estimate.Budget;

/**
 * What the detector makes of rigs drawn at random, held against the truth. {@code java
 * snick.cut.StrangersTrial 40 25 1.5 2.5 1} prints a line for each of 40 rigs of 25 cuts, rests of
 * 1.5 to 2.5 s, first seed 1.
 */
final class StrangersTrial {
  /** Cuts and errors of one rig. */
  static final class Tally {
    int cuts;
    int found;
    int falseCuts;
    int others;
    int covered;
    int gross;
    int spikes;
    double sumPercent;
    double sumSquares;
    double sumSquaresMax;
    double sumUPercent;
    final List<Double> zs = new ArrayList<>();
    final Dominated dominated = new Dominated();

    double coverage() {
      return 100.0 * covered / Math.max(1, found);
    }

    double bias() {
      return sumPercent / Math.max(1, found);
    }

    double rms() {
      return Math.sqrt(sumSquares / Math.max(1, found));
    }

    double rmsMax() {
      return Math.sqrt(sumSquaresMax / Math.max(1, found));
    }

    double u() {
      return sumUPercent / Math.max(1, found);
    }

    void add(Tally o) {
      cuts += o.cuts;
      found += o.found;
      falseCuts += o.falseCuts;
      others += o.others;
      covered += o.covered;
      gross += o.gross;
      spikes += o.spikes;
      sumPercent += o.sumPercent;
      sumSquares += o.sumSquares;
      sumSquaresMax += o.sumSquaresMax;
      sumUPercent += o.sumUPercent;
      zs.addAll(o.zs);
      dominated.add(o.dominated);
    }

    String line() {
      return String.format(
          Locale.ROOT,
          "found %d/%d false %d other %d cover %.0f%% bias %+.2f%% rms %.2f%% (max %.2f%%) u %.2f%%"
              + " gross %d spikes %d",
          found,
          cuts,
          falseCuts,
          others,
          coverage(),
          bias(),
          rms(),
          rmsMax(),
          u(),
          gross,
          spikes);
    }
  }

  /**
   * Errors over u of cuts where instant, parting and lag make most of u: as estimated, as they were
   * if somebody told how long the parting took, and by what the held fixture lags as well.
   */
  static final class Dominated {
    int cuts;
    double sumSquares;
    double sumSquaresPartingKnown;
    double sumSquaresLagKnown;

    void add(Dominated o) {
      cuts += o.cuts;
      sumSquares += o.sumSquares;
      sumSquaresPartingKnown += o.sumSquaresPartingKnown;
      sumSquaresLagKnown += o.sumSquaresLagKnown;
    }

    void add(StrangersRig rig, Cut cut, double errorGf, double uGf) {
      Budget budget = cut.peak().orElseThrow().budget().orElseThrow();
      if (budget.speedCounts() > Math.hypot(budget.handCounts(), budget.zeroCounts())) {
        double rate = cut.shape().loadingRateCountsPerSecond() / rig.countsPerGf;
        double left = errorGf - rate * (rig.partingDelayS() - PARTING_ALLOWED_S);
        cuts++;
        sumSquares += square(errorGf / uGf);
        sumSquaresPartingKnown += square(left / uGf);
        sumSquaresLagKnown += square((left + rate * rig.heldLagS()) / uGf);
      }
    }

    String line() {
      return String.format(
          Locale.ROOT,
          "where the response makes most of u: %d cuts, rms error %.2f u; parting known %.2f; lag"
              + " known as well %.2f",
          cuts,
          Math.sqrt(sumSquares / Math.max(1, cuts)),
          Math.sqrt(sumSquaresPartingKnown / Math.max(1, cuts)),
          Math.sqrt(sumSquaresLagKnown / Math.max(1, cuts)));
    }

    private static double square(double x) {
      return x * x;
    }
  }

  private static final double NEAR_S = 0.12;

  /** What {@code BreakEstimator.PARTING_SECONDS} allows every parting for its delay. */
  private static final double PARTING_ALLOWED_S = 0.0002;

  private StrangersTrial() {}

  static List<Cut> detect(StrangersRig rig) {
    List<Cut> cuts = new ArrayList<>();
    CutDetector detector = new CutDetector(DetectorSettings.defaults(), cuts::add);
    for (int i = 0; i < rig.counts.length; i++) {
      detector.sample(rig.nanos[i], rig.counts[i]);
    }
    detector.end();
    return cuts;
  }

  static Tally of(StrangersRig rig, boolean verbose) {
    return of(rig, verbose, Map.of());
  }

  /** The same, each cut counted for its kind of hand as well. */
  static Tally of(StrangersRig rig, Map<StrangersRig.Hand, Tally> byHand) {
    return of(rig, false, byHand);
  }

  private static Tally of(StrangersRig rig, boolean verbose, Map<StrangersRig.Hand, Tally> byHand) {
    Tally tally = new Tally();
    tally.cuts = rig.truths.size();
    boolean[] taken = new boolean[rig.truths.size()];
    for (Cut cut : detect(rig)) {
      boolean parted = cut.outcome() == Outcome.SEVERED;
      int at = parted ? nearest(rig, cut.breakNanos().getAsLong() / 1e9) : -1;
      if (!parted) {
        tally.others++;
        if (verbose) {
          System.out.println("    other " + cut.outcome() + " at " + cut.onsetNanos() / 1e9);
        }
      } else if (at < 0 || taken[at]) {
        tally.falseCuts++;
        if (verbose) {
          System.out.println("    false at " + cut.breakNanos().getAsLong() / 1e9);
        }
      } else {
        taken[at] = true;
        score(tally, rig, cut, rig.truths.get(at), verbose);
        if (byHand instanceof EnumMap<StrangersRig.Hand, Tally> map) {
          score(
              map.computeIfAbsent(rig.truths.get(at).hand(), h -> new Tally()),
              rig,
              cut,
              rig.truths.get(at),
              false);
        }
      }
    }
    return tally;
  }

  private static void score(
      Tally tally, StrangersRig rig, Cut cut, StrangersRig.Truth truth, boolean verbose) {
    double force = cut.peak().orElseThrow().estimateCounts() / rig.countsPerGf;
    double u = cut.peak().orElseThrow().standardUncertaintyCounts() / rig.countsPerGf;
    double max = cut.peak().orElseThrow().observedMaxCounts() / rig.countsPerGf;
    double error = force - truth.forceGf();
    double percent = 100 * error / truth.forceGf();
    tally.found++;
    tally.covered += Math.abs(error) <= 2 * u ? 1 : 0;
    tally.gross += Math.abs(percent) > 5 && Math.abs(error) > 2 * u ? 1 : 0;
    tally.spikes += cut.flags().contains(Flag.SPIKE_NEAR_PEAK) ? 1 : 0;
    tally.sumPercent += percent;
    tally.sumSquares += percent * percent;
    tally.sumSquaresMax += Math.pow(100 * (max - truth.forceGf()) / truth.forceGf(), 2);
    tally.sumUPercent += 100 * u / truth.forceGf();
    tally.zs.add(error / u);
    tally.dominated.add(rig, cut, error, u);
    if (verbose) {
      System.out.printf(
          Locale.ROOT,
          "    %.2f s %.1f gf %.0f gf/s: error %+.2f%% u %.2f%% z %+.1f max %+.2f%% %s%n",
          truth.breakS(),
          truth.forceGf(),
          truth.rateGfPerS(),
          percent,
          100 * u / truth.forceGf(),
          error / u,
          100 * (max - truth.forceGf()) / truth.forceGf(),
          cut.flags());
    }
  }

  private static int nearest(StrangersRig rig, double seconds) {
    for (int i = 0; i < rig.truths.size(); i++) {
      if (Math.abs(rig.truths.get(i).breakS() - seconds) < NEAR_S) {
        return i;
      }
    }
    return -1;
  }

  private static List<String> kinds(StrangersRig rig) {
    return List.of(
        "filter " + rig.filter,
        "parting " + rig.parting,
        "rate "
            + (rig.rateHz < 160 ? "below 160/s" : rig.rateHz < 400 ? "160/s to 400/s" : "faster"),
        "resonance "
            + (rig.resonanceHz < 60
                ? "below 60 Hz"
                : rig.resonanceHz < 150 ? "60 Hz to 150 Hz" : "higher"),
        "load that remains " + (rig.residual > 0 ? "some" : "none"),
        "drift " + (Math.abs(rig.driftGfPerS) > 0.02 ? "above 0.02 gf/s" : "less"));
  }

  /**
   * Rigs, cuts each, least and most rest in s, first seed; {@code v} for a line a cut; a drift in
   * gf/s in place of the rigs' own.
   */
  public static void main(String[] args) {
    int rigs = Integer.parseInt(args[0]);
    int cuts = Integer.parseInt(args[1]);
    double least = Double.parseDouble(args[2]);
    double most = Double.parseDouble(args[3]);
    long seed = Long.parseLong(args[4]);
    boolean verbose = args.length > 5 && args[5].equals("v");
    double drift = args.length > 5 && !verbose ? Double.parseDouble(args[5]) : Double.NaN;
    Tally pooled = new Tally();
    Map<String, Tally> byKind = new TreeMap<>();
    Map<StrangersRig.Hand, Tally> byHand = new EnumMap<>(StrangersRig.Hand.class);
    int whole = 0;
    int honest = 0;
    int unbiased = 0;
    int better = 0;
    for (int i = 0; i < rigs; i++) {
      StrangersRig rig = new StrangersRig(seed + i);
      if (Double.isFinite(drift)) {
        rig.drifting(drift);
      }
      Tally t = of(rig.record(cuts, least, most), verbose, byHand);
      kinds(rig).forEach(kind -> byKind.computeIfAbsent(kind, k -> new Tally()).add(t));
      System.out.println(seed + i + " " + rig + "\n   " + t.line());
      pooled.add(t);
      whole += t.found == t.cuts && t.falseCuts + t.others == 0 ? 1 : 0;
      honest += t.coverage() >= 80 ? 1 : 0;
      unbiased += Math.abs(t.bias()) <= 0.5 ? 1 : 0;
      better += t.rmsMax() <= 0.5 || t.rms() <= 0.8 * t.rmsMax() ? 1 : 0;
    }
    byHand.forEach((hand, t) -> System.out.println("hand " + hand + ": " + t.line()));
    byKind.forEach(
        (kind, t) -> System.out.println(kind + ": " + t.line() + "\n   " + t.dominated.line()));
    System.out.println("pooled " + pooled.line() + "\n   " + pooled.dominated.line());
    System.out.printf(
        "of %d rigs: all found and nothing else %d, coverage at least 80%% %d, bias within 0.5%%"
            + " %d, rms at most 0.8 of the largest sample's %d%n",
        rigs, whole, honest, unbiased, better);
  }
}
