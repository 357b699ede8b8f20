package snick.cut;

import java.util.Optional;

/**
 * Force at the break of a loading with enough readings before the fall. The loading (line, wander,
 * tremor) ends at the break; a filter of the family spreads that over a few samples. The early
 * readings tell how the loading goes on; the filter and the break are those that explain the late
 * readings best; the strengths of tremor and wander are averaged over by their evidence (Bayesian
 * linear regression, Bishop 2006, sections 3.3 to 3.5, from memory). One thread.
 */
final class RampEstimator {
  /** Below, a line with tremor and wander has more coefficients than readings to tell them. */
  private static final int LEAST_EARLY = 8;

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
   * Readings up to so long after the bottom are fitted, periods: the longest filter of the family
   * falls from 10 % to nothing within that, and ringing is kept out.
   */
  private static final double AFTER_BOTTOM = 2.2;

  /**
   * A right model leaves a larger rms in one case of nine (chi square of 1.3² · 7 = 11.8 with seven
   * degrees of freedom), fewer still since the fit takes its share.
   */
  private static final double MISFIT_ALLOWED = 1.3;

  /** Never by chance: a rms of three deviations means that no filter of the family was at work. */
  private static final double POOR_MISFIT = 3;

  /**
   * A filter of four periods falls from 90 % to 10 % within two to three; the rest is no filter.
   */
  private static final double FILTER_FALL = 2;

  /** Above {@link #MISFIT_ALLOWED}, for looking for a spike costs twenty fits. */
  private static final double SPIKE_MISFIT = 1.5;

  /** With a reading or two fewer the rms of the rest scatters more than that of all. */
  private static final double SPIKE_GONE_MISFIT = 2;

  /**
   * Logarithm of the evidence that each reading left out must bring: a reading nine deviations off
   * (9²/2), far beyond noise.
   */
  private static final double SPIKE_EVIDENCE = 40;

  /** Spikes further back than this from the late readings hardly move the end of the loading. */
  private static final int EARLY_SPIKES = 4;

  /**
   * Priors less likely than the best by this factor's logarithm are left out: one in eight
   * thousand.
   */
  private static final double NEGLIGIBLE_LOG = 9;

  /** One period of tremor in the middle of its band, 4 to 12 Hz, lasts 0.125 s. */
  private static final double HIDES_TREMOR_SECONDS = 0.1;

  /** A period and a half: from here on the error table's uncertainties hold without help. */
  private static final double SHOWS_TREMOR_SECONDS = 0.18;

  /** Rates within 2 % share one design, which turns frequencies by as little. */
  private static final double RATE_CLASSES_PER_E = 50;

  private static final double USUAL_HERTZ = 80;

  private long rateClass = rateClass(USUAL_HERTZ);
  private RampDesign design = new RampDesign(rateOf(rateClass));

  /** A filter and a break, with their evidence. */
  private record Look(int kernel, int phase, double logEvidence, double shift) {}

  /**
   * The estimate; empty if the ramp is too short for it.
   *
   * @param near where the break is looked for, periods
   * @param line the estimate by the loading line alone
   */
  Optional<BreakEstimate> estimate(
      Samples s,
      int onset,
      Fall fall,
      double after,
      double noise,
      double near,
      BreakEstimate line) {
    tune(1e9 / s.periodNanos);
    double reference = s.time[s.nearest(near)];
    double clean = s.time[onset] + 0.5 + Kernel.LONGEST_HALF;
    int early = (int) Math.floor(reference + RampWindow.LATE_FROM - clean);
    if (early < LEAST_EARLY) {
      return Optional.empty();
    }
    double height = s.x[s.largest(Math.max(0, fall.top() - 4), fall.top() + 1)];
    double last = s.time[fall.bottom()] + AFTER_BOTTOM;
    double ringing = s.ringing(near + Kernel.LONGEST_HALF, after, noise) / (noise * noise);
    RampWindow w = new RampWindow(s, reference, design.early(early), last, after, noise);
    return estimate(s, new Search(w, ringing), near)
        .flatMap(
            c ->
                c.fit().misfit() > POOR_MISFIT
                    ? Optional.of(vague(line, fall, height))
                    : c.average());
  }

  /** No filter of the family explains the fall: then the break lies somewhere in it. */
  private static BreakEstimate vague(BreakEstimate line, Fall fall, double height) {
    double beyondFilter = Math.max(1, fall.periods() - FILTER_FALL);
    double within = 0.5 * Math.abs(line.slopeCountsPerPeriod()) * beyondFilter;
    double correction = 0.5 * Math.abs(line.forceCounts() - height);
    double u = Math.hypot(Math.hypot(within, correction), line.uncertaintyCounts());
    return line.withUncertainty(line.forceCounts(), u);
  }

  private Optional<Candidate> estimate(Samples s, Search whole, double near) {
    Optional<Candidate> candidate = whole.fit(near).map(fit -> new Candidate(whole, fit));
    if (candidate.isPresent() && candidate.get().fit().misfit() > SPIKE_MISFIT) {
      Optional<Without> spike = withoutSpike(whole, near, candidate.get().fit());
      if (spike.isPresent()) {
        spike.get().leaveOut(s);
        return Optional.of(new Candidate(spike.get().search(), spike.get().fit()));
      }
    }
    return candidate.map(c -> c.strained() ? shortened(c, near) : c);
  }

  /**
   * Where the loading slipped, older readings mislead about the end: fewer are used if that makes
   * the late readings likelier.
   */
  private Candidate shortened(Candidate whole, double near) {
    Candidate best = whole;
    int early = whole.search().w.early.length / 2;
    for (; early >= LEAST_EARLY; early /= 2) {
      Search search =
          new Search(whole.search().w.withEarly(design.early(early)), whole.search().ringing);
      Optional<Fit> fit = search.fit(near);
      if (fit.isPresent() && fit.get().look().logEvidence() > best.fit().look().logEvidence()) {
        best = new Candidate(search, fit.get());
      }
    }
    return best;
  }

  /** A search and what it found. */
  private record Candidate(Search search, Fit fit) {
    Optional<BreakEstimate> average() {
      return search.average(fit);
    }

    /** Whether the loading is so uneven that it may have slipped. */
    boolean strained() {
      return fit.misfit() > SPIKE_MISFIT || fit.unevenness().strong();
    }
  }

  /** If leaving out one or two readings near the break makes the rest fit, those were a spike. */
  private Optional<Without> withoutSpike(Search all, double near, Fit fit) {
    Optional<Without> best = Optional.empty();
    double most = fit.look().logEvidence();
    for (int length = 1; length <= Spikes.LONGEST; length++) {
      most += SPIKE_EVIDENCE;
      for (int from = -EARLY_SPIKES; from + length <= RampWindow.LATE; from++) {
        Search search = all.without(from, length);
        Optional<Fit> part = search.fit(near);
        if (part.isPresent()
            && part.get().misfit() < SPIKE_GONE_MISFIT
            && part.get().look().logEvidence() > most) {
          most = part.get().look().logEvidence();
          best = Optional.of(new Without(from, length, search, part.get()));
        }
      }
    }
    return best;
  }

  /** The best look, and what it leaves of the late readings. */
  private record Fit(Look look, double misfit, Unevenness unevenness) {}

  /** A search without {@code length} readings from the late reading {@code from} on. */
  private record Without(int from, int length, Search search, Fit fit) {
    void leaveOut(Samples s) {
      for (int i = from; i < from + length; i++) {
        s.usable[s.nearest(search.w.reference + RampWindow.LATE_FROM + i)] = false;
      }
    }
  }

  private void tune(double rateHertz) {
    long wanted = rateClass(rateHertz);
    if (wanted != rateClass) {
      rateClass = wanted;
      design = new RampDesign(rateOf(wanted));
    }
  }

  private static long rateClass(double rateHertz) {
    return Math.round(RATE_CLASSES_PER_E * Math.log(rateHertz));
  }

  private static double rateOf(long rateClass) {
    return Math.exp(rateClass / RATE_CLASSES_PER_E);
  }

  /** What the early readings alone tell: shared by searches that differ in the late ones only. */
  private final class Known {
    final int readings;
    final double[] right;
    final double[] evidence = new double[Unevenness.LADDER.size()];
    final double mostEvidence;

    /** The prior that the early readings bear out best. */
    final int usual;

    private final Loading[] loadings = new Loading[Kernel.FAMILY.size()];

    Known(double[] early) {
      readings = early.length;
      right = design.right(early);
      int best = 0;
      for (int u = 0; u < evidence.length; u++) {
        evidence[u] =
            design.factor(readings, 0, u).logEvidence(right) + Unevenness.LADDER.get(u).logPrior();
        best = evidence[u] > evidence[best] ? u : best;
      }
      usual = best;
      mostEvidence = evidence[best];
    }

    Loading usualLoading(int kernel) {
      if (loadings[kernel] == null) {
        loadings[kernel] = loading(kernel, usual);
      }
      return loadings[kernel];
    }

    Loading loading(int kernel, int unevenness) {
      return new Loading(design.nodes(), design.factor(readings, kernel, unevenness), right);
    }
  }

  /** The search in one window. */
  private final class Search {
    final RampWindow w;
    final double ringing;
    private final Known known;

    Search(RampWindow w, double ringing) {
      this(w, ringing, new Known(w.early));
    }

    private Search(RampWindow w, double ringing, Known known) {
      this.w = w;
      this.ringing = ringing;
      this.known = known;
    }

    /**
     * The same without {@code length} readings from {@code from} on, counted from the first late.
     */
    Search without(int from, int length) {
      RampWindow rest = w.without(from, length);
      return from < 0 ? new Search(rest, ringing) : new Search(rest, ringing, known);
    }

    Optional<Fit> fit(double near) {
      return best(known.usual, KernelTable.phaseOf(near - w.reference))
          .map(look -> new Fit(look, misfit(look), Unevenness.LADDER.get(known.usual)));
    }

    private Optional<Look> best(int unevenness, int phase) {
      Look[] looks = new Look[Kernel.FAMILY.size()];
      for (int k = 0; k < looks.length; k++) {
        Loading loading = known.usualLoading(k);
        looks[k] = look(k, phase, loading, unevenness);
        if (Math.abs(looks[k].shift()) > FAR_SHIFT) {
          looks[k] = moved(looks[k], loading, unevenness);
        }
      }
      Look best = new Look(0, phase, Double.NEGATIVE_INFINITY, 0);
      for (int i = 0; i < FILTERS_LOOKED_AT_TWICE; i++) {
        Look next = takeLikeliest(looks);
        Look settled = settled(next, known.usualLoading(next.kernel()), unevenness);
        best = settled.logEvidence() > best.logEvidence() ? settled : best;
      }
      return best.logEvidence() > Double.NEGATIVE_INFINITY ? Optional.of(best) : Optional.empty();
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

    private Look look(int kernel, int phase, Loading loading, int unevenness) {
      LateRegression regression = design.regression();
      return regression.fit(w, view(kernel, phase, unevenness), phase, loading, ringing, 1)
          ? new Look(kernel, phase, regression.logEvidence(), regression.shift())
          : new Look(kernel, phase, Double.NEGATIVE_INFINITY, 0);
    }

    private LateView view(int kernel, int phase, int unevenness) {
      return design.view(w.early.length, kernel, unevenness, phase);
    }

    private Look settled(Look from, Loading loading, int unevenness) {
      Look look = from;
      for (int turn = 0; turn < LOOKS; turn++) {
        Look next = moved(look, loading, unevenness);
        if (next.phase() == look.phase()) {
          break;
        }
        look = next;
      }
      return look;
    }

    private Look moved(Look look, Loading loading, int unevenness) {
      int phase = KernelTable.phaseOf(KernelTable.timeOf(look.phase()) + look.shift());
      return phase == look.phase() ? look : look(look.kernel(), phase, loading, unevenness);
    }

    private double misfit(Look look) {
      look(look.kernel(), look.phase(), known.usualLoading(look.kernel()), known.usual);
      return design.regression().misfit();
    }

    Optional<BreakEstimate> average(Fit fit) {
      Look look = fit.look();
      double misfit = Math.max(1, fit.misfit() / MISFIT_ALLOWED);
      double time = w.reference + KernelTable.timeOf(look.phase());
      Mixture mixture = new Mixture(time, w.noise);
      for (int u = 0; u < known.evidence.length; u++) {
        if (known.evidence[u] > known.mostEvidence - NEGLIGIBLE_LOG) {
          add(mixture, look, u, misfit);
        }
      }
      return mixture.estimate(0, false).map(e -> doubted(e, look, misfit));
    }

    private void add(Mixture mixture, Look look, int u, double misfit) {
      EarlyFactor factor = design.factor(w.early.length, look.kernel(), u);
      Unevenness unevenness = Unevenness.LADDER.get(u);
      force(look, u, misfit)
          .ifPresent(
              force ->
                  mixture.add(
                      factor.logEvidence(known.right)
                          + unevenness.logPrior()
                          + design.regression().logEvidence(),
                      unevenness,
                      force,
                      factor.trend(known.right)));
    }

    private Optional<CrossingWeight> force(Look look, int u, double misfit) {
      Loading loading = known.loading(look.kernel(), u);
      LateView view = view(look.kernel(), look.phase(), u);
      LateRegression regression = design.regression();
      return regression.fit(w, view, look.phase(), loading, ringing, misfit)
          ? Optional.of(regression.force(design.nodes(), look.phase(), loading))
          : Optional.empty();
    }

    /**
     * A ramp shorter than a period of tremor cannot show that the hand is still: the shorter it is,
     * the more the uncertainty allows for tremor of the usual strength.
     */
    private BreakEstimate doubted(BreakEstimate e, Look look, double misfit) {
      double seconds = w.early.length / design.rateHertz();
      double share =
          Math.min(
              1, (SHOWS_TREMOR_SECONDS - seconds) / (SHOWS_TREMOR_SECONDS - HIDES_TREMOR_SECONDS));
      if (!(share > 0)) {
        return e;
      }
      return force(look, Unevenness.usualAt(e.forceCounts() / w.noise), misfit)
          .map(
              usual -> {
                double off = usual.mean() - e.forceCounts() / w.noise;
                double doubt = w.noise * Math.sqrt(share * (usual.variance() + off * off));
                return e.withUncertainty(e.forceCounts(), Math.hypot(e.uncertaintyCounts(), doubt));
              })
          .orElse(e);
    }
  }
}
