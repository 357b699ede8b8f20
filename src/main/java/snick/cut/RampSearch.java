package snick.cut;

import java.util.Optional;

/** Looks in one window for the filter and the break that explain the late readings best. */
final class RampSearch {
  /** Three suffice as a rule; a break that has not settled by six swings between two phases. */
  private static final int LOOKS = 6;

  /**
   * Half the prior deviation of the shift, periods: beyond it the linearised shift is no longer
   * exact enough to compare filters by.
   */
  private static final double FAR_SHIFT = 0.15;

  /** A filter of the family has two near neighbours in width; others are behind by far. */
  private static final int FILTERS_LOOKED_AT_TWICE = 3;

  /**
   * A right model leaves a larger rms in one case of nine (chi square of 1.3² · 7 = 11.8 with seven
   * degrees of freedom), fewer still since the fit takes its share.
   */
  private static final double MISFIT_ALLOWED = 1.3;

  /** One period of tremor in the middle of its band, 4 to 12 Hz, lasts 0.125 s. */
  private static final double HIDES_TREMOR_SECONDS = 0.1;

  /** A period and a half: from here on the error table's uncertainties hold without help. */
  private static final double SHOWS_TREMOR_SECONDS = 0.18;

  /** A filter and a break, with their evidence. */
  record Look(int kernel, int phase, double logEvidence, double shift) {}

  /** The best look, and what it leaves of the late readings. */
  record Fit(Look look, double misfit, Unevenness unevenness) {}

  private final RampDesign design;
  private final RampWindow w;
  private final EarlyReadings early;
  private final LateSpread spread;

  /**
   * A search.
   *
   * @param ringing variance of the ringing right after the break, noises squared
   */
  RampSearch(RampDesign design, RampWindow w, double ringing) {
    this(design, w, new EarlyReadings(design, w.early), LateSpread.of(w, ringing));
  }

  private RampSearch(RampDesign design, RampWindow w, EarlyReadings early, LateSpread spread) {
    this.design = design;
    this.w = w;
    this.early = early;
    this.spread = spread;
  }

  double reference() {
    return w.reference;
  }

  int earlyReadings() {
    return early.size();
  }

  /** The same without {@code length} readings from {@code from} on, counted from the first late. */
  RampSearch without(int from, int length) {
    RampWindow rest = w.without(from, length);
    EarlyReadings kept = from < 0 ? new EarlyReadings(design, rest.early) : early;
    return new RampSearch(design, rest, kept, spread.of(rest));
  }

  /** The same with the newest {@code kept} early readings only. */
  RampSearch withEarly(int kept) {
    RampWindow shorter = w.withEarly(kept);
    return new RampSearch(design, shorter, new EarlyReadings(design, shorter.early), spread);
  }

  /**
   * The filter and break of largest evidence.
   *
   * @param near where the break is looked for, periods
   */
  Optional<Fit> fit(double near) {
    int phase = KernelTable.phaseOf(near - w.reference);
    Look[] looks = new Look[Kernel.FAMILY.size()];
    for (int k = 0; k < looks.length; k++) {
      looks[k] = look(k, phase);
      if (Math.abs(looks[k].shift()) > FAR_SHIFT) {
        looks[k] = moved(looks[k]);
      }
    }
    Look best = new Look(0, phase, Double.NEGATIVE_INFINITY, 0);
    for (int i = 0; i < FILTERS_LOOKED_AT_TWICE; i++) {
      Look settled = settled(takeLikeliest(looks));
      best = settled.logEvidence() > best.logEvidence() ? settled : best;
    }
    return best.logEvidence() > Double.NEGATIVE_INFINITY
        ? Optional.of(new Fit(best, misfit(best), Unevenness.LADDER.get(early.usual())))
        : Optional.empty();
  }

  private static Look takeLikeliest(Look[] looks) {
    int likeliest = 0;
    for (int k = 1; k < looks.length; k++) {
      likeliest = looks[k].logEvidence() > looks[likeliest].logEvidence() ? k : likeliest;
    }
    Look taken = looks[likeliest];
    looks[likeliest] = new Look(taken.kernel(), taken.phase(), Double.NEGATIVE_INFINITY, 0);
    return taken;
  }

  private Look look(int kernel, int phase) {
    LateRegression regression = design.regression();
    LateView view = design.view(early.size(), kernel, early.usual(), phase, spread);
    return regression.fit(w, view, early.usualMeans(), kernel * design.nodes().size())
        ? new Look(kernel, phase, regression.logEvidence(), regression.shift())
        : new Look(kernel, phase, Double.NEGATIVE_INFINITY, 0);
  }

  private Look settled(Look from) {
    Look look = from;
    for (int turn = 0; turn < LOOKS; turn++) {
      Look next = moved(look);
      if (next.phase() == look.phase()) {
        break;
      }
      look = next;
    }
    return look;
  }

  private Look moved(Look look) {
    int phase = KernelTable.phaseOf(KernelTable.timeOf(look.phase()) + look.shift());
    return phase == look.phase() ? look : look(look.kernel(), phase);
  }

  private double misfit(Look look) {
    look(look.kernel(), look.phase());
    return design.regression().misfit();
  }

  /** The force at the break, averaged over the priors. */
  Optional<BreakEstimate> average(Fit fit) {
    Look look = fit.look();
    LateSpread widened = spread.misfitting(Math.max(1, fit.misfit() / MISFIT_ALLOWED));
    double time = w.reference + KernelTable.timeOf(look.phase());
    Mixture mixture = new Mixture(time, w.noise);
    for (int u = 0; u < Unevenness.LADDER.size(); u++) {
      if (!early.negligible(u)) {
        add(mixture, look, u, widened);
      }
    }
    Optional<BreakEstimate> average = mixture.estimate(0, false);
    return average.isPresent()
        ? Optional.of(doubted(average.get(), look, widened))
        : Optional.empty();
  }

  private void add(Mixture mixture, Look look, int u, LateSpread widened) {
    double[] means = early.means(look.kernel(), u);
    Optional<CrossingWeight> force = force(look, u, widened, means);
    if (force.isPresent()) {
      double evidence = early.logEvidence(look.kernel(), u) + design.regression().logEvidence();
      double slope = means[design.nodes().size()];
      mixture.add(evidence, Unevenness.LADDER.get(u), force.get(), slope);
    }
  }

  private Optional<CrossingWeight> force(Look look, int u, LateSpread widened, double[] means) {
    LateRegression regression = design.regression();
    LateView view = design.view(early.size(), look.kernel(), u, look.phase(), widened);
    return regression.fit(w, view, means, 0) ? Optional.of(regression.force()) : Optional.empty();
  }

  /**
   * A ramp shorter than a period of tremor cannot show that the hand is still: the shorter it is,
   * the more the uncertainty allows for tremor of the usual strength.
   */
  private BreakEstimate doubted(BreakEstimate e, Look look, LateSpread widened) {
    double seconds = early.size() / design.rateHertz();
    double share =
        Math.min(
            1, (SHOWS_TREMOR_SECONDS - seconds) / (SHOWS_TREMOR_SECONDS - HIDES_TREMOR_SECONDS));
    return share > 0 ? doubted(e, look, widened, share) : e;
  }

  private BreakEstimate doubted(BreakEstimate e, Look look, LateSpread widened, double share) {
    int tremor = Unevenness.usualAt(e.forceCounts() / w.noise);
    Optional<CrossingWeight> usual =
        force(look, tremor, widened, early.means(look.kernel(), tremor));
    if (usual.isEmpty()) {
      return e;
    }
    double off = usual.get().mean() - e.forceCounts() / w.noise;
    double doubt = w.noise * Math.sqrt(share * (usual.get().variance() + off * off));
    return e.withUncertainty(e.forceCounts(), Math.hypot(e.uncertaintyCounts(), doubt));
  }
}
