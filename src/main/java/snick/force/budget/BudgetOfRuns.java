package snick.force.budget;

import static snick.force.budget.BudgetTerm.Source;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import snick.force.fit.CalibrationCurve;
import snick.force.fit.CommonLoadError;
import snick.force.fit.PolynomialFit;
import snick.force.mass.Distribution;
import snick.force.mass.Gravity;
import snick.force.mass.Load;
import snick.force.reading.CalibrationData;
import snick.force.reading.CalibrationRun;
import snick.force.reading.Deflection;
import snick.force.reading.Direction;
import snick.force.reading.Reversal;
import snick.phrase.Phrase;
import snick.quantity.Force;

/** The uncertainty budget that the runs of one calibration give, fit and peak left aside. */
final class BudgetOfRuns {
  private static final Conditions.Stability USUAL = Conditions.Stability.USUAL;
  private static final double ROOT_3 = Math.sqrt(3);
  private static final double ROOT_6 = Math.sqrt(6);

  private final CalibrationData data;
  private final Conditions conditions;
  private final List<Deflection> rising;
  private final List<Reversal> reversals;
  private final PolynomialFit fit;
  private final double largestNewtons;
  private final double newtonsPerCount;

  BudgetOfRuns(
      CalibrationData data, Conditions conditions, List<Deflection> all, PolynomialFit fit) {
    this.data = data;
    this.conditions = conditions;
    this.rising = all.stream().filter(d -> d.direction() == Direction.UP).toList();
    this.reversals = Reversal.pairs(all);
    this.fit = fit;
    this.largestNewtons = rising.stream().mapToDouble(Deflection::newtons).max().orElse(0);
    this.newtonsPerCount = largestNewtons / fit.predict(largestNewtons);
  }

  /** The terms. */
  List<BudgetTerm> terms() {
    List<BudgetTerm> terms = new ArrayList<>();
    terms.add(masses());
    terms.add(gravity());
    terms.add(buoyancy());
    terms.add(repeatability());
    if (data.runs().size() > 1) {
      terms.add(runToRun());
    }
    if (!reversals.isEmpty()) {
      terms.add(reversibility());
    }
    terms.add(zeroDrift());
    data.hold().ifPresent(hold -> terms.add(creep(hold)));
    terms.add(temperature());
    terms.add(resolution());
    terms.add(
        BudgetTerm.absolute(
            Source.NOISE,
            Distribution.NORMAL,
            0,
            "counted in the scatter of the fit and in the peak's own uncertainty"));
    terms.add(age());
    terms.addAll(conditions.geometry().terms());
    return terms;
  }

  /** What the data did not allow. */
  List<Phrase> notes() {
    List<Phrase> notes = new ArrayList<>();
    if (data.runs().size() == 1) {
      notes.add(Phrase.of("record.note_one_run"));
    }
    if (reversals.isEmpty()) {
      notes.add(Phrase.of("record.note_no_falling"));
    }
    if (data.hold().isEmpty()) {
      notes.add(Phrase.of("record.note_no_hold"));
    }
    Conditions.Stability stability = conditions.stability();
    if (!(stability.relativePerKelvin() * stability.halfWidthKelvin() > 0)) {
      notes.add(Phrase.of("record.note_temperature"));
    }
    if (!(stability.relativePerYear() > 0)) {
      notes.add(Phrase.of("record.note_drift"));
    }
    if (conditions.geometry().equals(EdgeGeometry.NOT_STATED)) {
      notes.add(Phrase.of("record.note_geometry"));
    }
    return notes;
  }

  /** Errors of the masses, all the same way, carried through the fit: largest relative effect. */
  private BudgetTerm masses() {
    double[] x = rising.stream().mapToDouble(Deflection::newtons).toArray();
    double[] u = new double[x.length];
    int i = 0;
    for (CalibrationRun run : data.runs()) {
      for (CalibrationRun.Loaded loaded : run.loaded()) {
        if (loaded.direction() == Direction.UP) {
          u[i] = loaded.load().exerted(conditions.gravity(), conditions.air()).byMassesNewtons();
          i++;
        }
      }
    }
    return BudgetTerm.relative(
        Source.REFERENCE_MASSES,
        Distribution.RECTANGULAR,
        CommonLoadError.largestEffect(fit, x, u),
        "uncertainties of the masses, all the same way, carried through the fit; largest effect");
  }

  private BudgetTerm gravity() {
    Gravity g = conditions.gravity();
    return BudgetTerm.relative(
        Source.GRAVITY,
        g.distribution(),
        g.standardUncertainty() / g.metresPerSecondSquared(),
        g.basis());
  }

  private BudgetTerm buoyancy() {
    double worst = 0;
    for (CalibrationRun run : data.runs()) {
      for (CalibrationRun.Loaded loaded : run.loaded()) {
        Load.Exerted exerted = loaded.load().exerted(conditions.gravity(), conditions.air());
        worst = Math.max(worst, exerted.byBuoyancyNewtons() / exerted.force().newtons());
      }
    }
    return BudgetTerm.relative(
        Source.AIR_BUOYANCY, Distribution.RECTANGULAR, worst, conditions.air().basis());
  }

  /** Sensitivity of each run relative to the mean curve, less 1. */
  private double[] sensitivities() {
    double[] found = new double[data.runs().size()];
    for (int run = 0; run < found.length; run++) {
      double cross = 0;
      double square = 0;
      for (Deflection d : rising) {
        if (d.run() == run + 1) {
          double fitted = fit.predict(d.newtons());
          cross += d.counts() * fitted;
          square += fitted * fitted;
        }
      }
      found[run] = cross / square - 1;
    }
    return found;
  }

  /** Degrees of freedom of the scatter within runs. */
  private int withinRunDegreesOfFreedom() {
    int used = fit.form().parameters() + data.runs().size() - 1;
    return Math.max(1, rising.size() - used);
  }

  /** Standard deviation of single loadings about the curve of their run, counts. */
  private double withinRunSdCounts() {
    double[] sensitivities = sensitivities();
    double squares = 0;
    for (Deflection d : rising) {
      double ofRun = fit.predict(d.newtons()) * (1 + sensitivities[d.run() - 1]);
      squares += Math.pow(d.counts() - ofRun, 2);
    }
    return Math.sqrt(squares / withinRunDegreesOfFreedom());
  }

  /**
   * The mean curve. Its covariance takes the scatter within runs; how runs differ from one another,
   * the mean's part included, is in the term for runs, so that nothing counts twice.
   */
  CalibrationCurve curve() {
    return fit.overForce(1, withinRunSdCounts(), withinRunDegreesOfFreedom());
  }

  /**
   * Variance of single loadings without the noise of their readings, which a cut brings along with
   * its own peak. Variance components: JCGM 100:2008, H.5.2.
   */
  private BudgetTerm repeatability() {
    double within = square(withinRunSdCounts());
    double seating = Math.max(0, within - readingVariance());
    double freedom = withinRunDegreesOfFreedom() * square(seating / within);
    return new BudgetTerm(
        Source.REPEATABILITY,
        Distribution.STUDENT_T,
        Force.ofNewtons(Math.sqrt(seating) * newtonsPerCount),
        0,
        seating > 0 ? freedom : Double.POSITIVE_INFINITY,
        "scatter of single loadings about the curve of their run, less the noise of the readings");
  }

  /** Variance that the noise of one sample leaves in a deflection, mean over the rising ones. */
  private double readingVariance() {
    double sum = 0;
    for (CalibrationRun run : data.runs()) {
      for (CalibrationRun.Loaded loaded : run.loaded()) {
        sum += loaded.direction() == Direction.UP ? run.deflectionVariance(loaded) : 0;
      }
    }
    return sum / rising.size();
  }

  private static double square(double x) {
    return x * x;
  }

  /**
   * A later run differs from the mean of n runs with variance s²·(1 + 1/n); s² is what the runs
   * differ beyond what their single loadings explain (JCGM 100:2008, H.5.2).
   */
  private BudgetTerm runToRun() {
    double[] sensitivities = sensitivities();
    int n = sensitivities.length;
    double mean = Arrays.stream(sensitivities).average().orElse(0);
    double seen = Arrays.stream(sensitivities).map(s -> square(s - mean)).sum() / (n - 1);
    double byLoadings = square(withinRunSdCounts()) * n / squaresOfFit();
    double ofRuns = Math.max(0, seen - byLoadings);
    double spread = square(seen) / (n - 1) + square(byLoadings) / withinRunDegreesOfFreedom();
    return new BudgetTerm(
        Source.RUN_TO_RUN,
        Distribution.STUDENT_T,
        Force.ZERO,
        Math.sqrt(ofRuns * (1 + 1.0 / n)),
        ofRuns > 0 ? square(ofRuns) / spread : Double.POSITIVE_INFINITY,
        String.format(
            Locale.ROOT,
            "sensitivity over %d runs, for one later run, less what single loadings explain",
            n));
  }

  /** Sum of the squares of the fitted rising deflections, counts². */
  private double squaresOfFit() {
    return rising.stream().mapToDouble(d -> square(fit.predict(d.newtons()))).sum();
  }

  /** Between the rising and the falling curve: half their difference is the half-width. */
  private BudgetTerm reversibility() {
    return BudgetTerm.relative(
        Source.REVERSIBILITY,
        Distribution.RECTANGULAR,
        Reversal.pooledRelative(reversals) / 2 / ROOT_3,
        "half the difference of falling and rising deflections, means over the runs, as"
            + " half-width; generous, as a cut loads rising");
  }

  /** The zero is taken as straight in time: half its change is the half-width. */
  private BudgetTerm zeroDrift() {
    double squares =
        data.runs().stream().mapToDouble(r -> r.zeroMovedCounts() * r.zeroMovedCounts()).sum();
    double moved = Math.sqrt(squares / data.runs().size());
    return BudgetTerm.absolute(
        Source.ZERO_DRIFT,
        Distribution.RECTANGULAR,
        moved / 2 / ROOT_3 * newtonsPerCount,
        "half the change of zero over a run (root mean square) as half-width");
  }

  private BudgetTerm creep(CalibrationData.CreepHold hold) {
    double newtons = hold.load().exerted(conditions.gravity(), conditions.air()).force().newtons();
    return BudgetTerm.relative(
        Source.CREEP,
        Distribution.RECTANGULAR,
        Math.abs(hold.changeCounts()) / fit.predict(newtons) / ROOT_3,
        String.format(Locale.ROOT, "change over %.0f s as half-width", hold.spanSeconds()));
  }

  private BudgetTerm temperature() {
    Conditions.Stability stability = conditions.stability();
    return BudgetTerm.relative(
        Source.TEMPERATURE,
        Distribution.RECTANGULAR,
        stability.relativePerKelvin() * stability.halfWidthKelvin() / ROOT_3,
        String.format(
            Locale.ROOT,
            "%.3g per K over ±%.3g K, %s",
            stability.relativePerKelvin(),
            stability.halfWidthKelvin(),
            bySaying(
                stability.relativePerKelvin() == USUAL.relativePerKelvin()
                    && stability.halfWidthKelvin() == USUAL.halfWidthKelvin())));
  }

  /** A deflection is the difference of two readings, each rounded to one count: 1/√6. */
  private BudgetTerm resolution() {
    return BudgetTerm.absolute(
        Source.RESOLUTION,
        Distribution.TRIANGULAR,
        newtonsPerCount / ROOT_6,
        "one count, difference of two readings");
  }

  private BudgetTerm age() {
    return BudgetTerm.relative(
        Source.TIME_SINCE_CALIBRATION,
        Distribution.RECTANGULAR,
        conditions.stability().relativeDrift() / ROOT_3,
        String.format(
            Locale.ROOT,
            "%.3g per year to the end of validity, %s",
            conditions.stability().relativePerYear(),
            bySaying(conditions.stability().relativePerYear() == USUAL.relativePerYear())));
  }

  private static String bySaying(boolean usual) {
    return usual ? "the usual value" : "stated";
  }
}
