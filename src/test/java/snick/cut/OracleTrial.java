package snick.cut;

import java.util.Locale;
import snick.cut.estimate.ForceAtBreak;
import snick.cut.estimate.Loading;

/** The estimator alone: events and zero are told from the truth. */
final class OracleTrial {
  public static void main(String[] args) {
    int rigs = Integer.parseInt(args[0]);
    int cuts = Integer.parseInt(args[1]);
    double least = Double.parseDouble(args[2]);
    double most = Double.parseDouble(args[3]);
    long seed = Long.parseLong(args[4]);
    boolean verbose = args.length > 5;
    StrangersTrial.Tally pooled = new StrangersTrial.Tally();
    int honest = 0;
    int unbiased = 0;
    int better = 0;
    java.util.Map<String, StrangersTrial.Tally> kinds = new java.util.TreeMap<>();
    long nanos = 0;
    snick.cut.estimate.BreakEstimator estimator = new snick.cut.estimate.BreakEstimator();
    for (int i = 0; i < rigs; i++) {
      StrangersRig rig = new StrangersRig(seed + i).record(cuts, least, most);
      StrangersTrial.Tally t = new StrangersTrial.Tally();
      t.cuts = cuts;
      for (int c = 0; c < cuts; c++) {
        Loading l = loading(rig, c);
        long t0 =
            java.lang.management.ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
        ForceAtBreak f = estimator.estimate(l);
        nanos +=
            java.lang.management.ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - t0;
        StrangersTrial.Tally one = new StrangersTrial.Tally();
        one.cuts = 1;
        score(one, rig, l, f, rig.truths.get(c), verbose);
        t.add(one);
        for (String kind : kinds(rig, rig.truths.get(c))) {
          kinds.computeIfAbsent(kind, k -> new StrangersTrial.Tally()).add(one);
        }
      }
      System.out.println(seed + i + " " + rig + "\n   " + t.line());
      pooled.add(t);
      honest += t.coverage() >= 80 ? 1 : 0;
      unbiased += Math.abs(t.bias()) <= 0.5 ? 1 : 0;
      better += t.rmsMax() <= 0.5 || t.rms() <= 0.8 * t.rmsMax() ? 1 : 0;
    }
    kinds.forEach((k, t) -> System.out.printf("%-22s %s%n", k, t.line()));
    System.out.println("pooled " + pooled.line());
    System.out.printf(
        Locale.ROOT,
        "of %d rigs: coverage >= 80%%: %d, bias within 0.5%%: %d, rms better %d; %.0f us a cut%n",
        rigs,
        honest,
        unbiased,
        better,
        nanos / 1e3 / rigs / cuts);
  }

  static java.util.List<String> kinds(StrangersRig rig, StrangersRig.Truth truth) {
    return java.util.List.of(
        "filter " + rig.filter,
        "hand " + truth.hand(),
        "parting " + rig.parting + (rig.partingS > 0.002 ? " slow" : " quick"),
        "rate " + (rig.rateHz < 160 ? "<160" : rig.rateHz < 320 ? "<320" : "more"),
        "resonance " + (rig.resonanceHz < 60 ? "<60" : rig.resonanceHz < 150 ? "<150" : "more"),
        "damping " + (rig.damping < 0.05 ? "<.05" : "more"),
        "residual " + (rig.residual > 0),
        rig.atStrength ? "at strength" : "at instant",
        "held more " + (rig.dampingHeld > 2 * rig.damping),
        "speed " + (truth.rateGfPerS() > 100 ? ">100" : "less"),
        "drift " + (Math.abs(rig.driftGfPerS) > 0.02));
  }

  static Loading loading(StrangersRig rig, int c) {
    StrangersRig.Truth truth = rig.truths.get(c);
    double from = truth.startS() - 0.3;
    double to = c + 1 < rig.truths.size() ? rig.truths.get(c + 1).startS() : truth.breakS() + 1;
    to = Math.min(to, truth.breakS() + 1);
    int i0 = index(rig, from);
    int n = index(rig, to) - i0;
    double[] t = new double[n];
    double[] y = new double[n];
    boolean[] usable = new boolean[n];
    for (int i = 0; i < n; i++) {
      t[i] = rig.nanos[i0 + i] / 1e9;
      y[i] = rig.counts[i0 + i] - 40_000 - rig.countsPerGf * rig.driftGfPerS * t[i];
      usable[i] = true;
    }
    double height = 0;
    int peak = 0;
    for (int i = 0; i < n; i++) {
      if (t[i] < truth.breakS() + 0.03 && y[i] > height) {
        height = y[i];
        peak = i;
      }
    }
    int bottom = peak;
    while (y[bottom] > 0.1 * height) {
      bottom++;
    }
    int top = bottom;
    while (y[top] < 0.9 * height) {
      top--;
    }
    double t90 = cross(t, y, top, 0.9 * height);
    double t10 = cross(t, y, bottom - 1, 0.1 * height);
    int onset = 0;
    while (t[onset + 1] < truth.startS()) {
      onset++;
    }
    return new Loading(
        t,
        y,
        usable,
        1 / rig.rateHz,
        rig.noiseGf * rig.countsPerGf,
        onset,
        top,
        bottom,
        t10 - t90,
        Double.POSITIVE_INFINITY,
        0,
        n);
  }

  private static double cross(double[] t, double[] y, int i, double level) {
    return t[i] + (t[i + 1] - t[i]) * (y[i] - level) / (y[i] - y[i + 1]);
  }

  private static int index(StrangersRig rig, double s) {
    return Math.max(
        0, Math.min(rig.nanos.length - 1, (int) Math.ceil((s - rig.nanos[0] / 1e9) * rig.rateHz)));
  }

  private static void score(
      StrangersTrial.Tally tally,
      StrangersRig rig,
      Loading l,
      ForceAtBreak f,
      StrangersRig.Truth truth,
      boolean verbose) {
    double force = f.forceCounts() / rig.countsPerGf;
    double u = f.budget().standardUncertaintyCounts() / rig.countsPerGf;
    double max = 0;
    for (int i = l.onset(); i < l.bottom(); i++) {
      max = Math.max(max, l.counts()[i] / rig.countsPerGf);
    }
    double error = force - truth.forceGf();
    double percent = 100 * error / truth.forceGf();
    tally.found++;
    tally.covered += Math.abs(error) <= 2 * u ? 1 : 0;
    tally.gross += Math.abs(percent) > 5 && Math.abs(error) > 2 * u ? 1 : 0;
    tally.sumPercent += percent;
    tally.sumSquares += percent * percent;
    tally.sumSquaresMax += Math.pow(100 * (max - truth.forceGf()) / truth.forceGf(), 2);
    tally.sumUPercent += 100 * u / truth.forceGf();
    tally.zs.add(error / u);
    if (verbose) {
      snick.cut.estimate.Budget b = f.budget();
      double k = 100 / rig.countsPerGf / truth.forceGf();
      System.out.printf(
          Locale.ROOT,
          "    %.2f s %.1f gf %.0f gf/s %s: error %+.2f%% u %.2f%% (course %.2f instant %.2f back %.2f parting %.2f motion %.2f) z %+.1f max %+.2f%% instant %+.2f ms slope %.0f INS %.3f %.3f%n",
          truth.breakS(),
          truth.forceGf(),
          truth.rateGfPerS(),
          truth.hand(),
          percent,
          100 * u / truth.forceGf(),
          b.courseCounts() * k,
          b.instantCounts() * k,
          b.backtestCounts() * k,
          b.partingCounts() * k,
          f.motionCounts() * k,
          error / u,
          100 * (max - truth.forceGf()) / truth.forceGf(),
          1e3 * (f.instantSeconds() - truth.breakS()),
          f.loadingRateCountsPerSecond() / rig.countsPerGf,
          l.fallSeconds() / l.periodSeconds(),
          (f.instantSeconds() - truth.breakS() - rig.lagS()) / l.periodSeconds());
    }
  }
}
