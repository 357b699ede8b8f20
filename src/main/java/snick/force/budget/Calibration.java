package snick.force.budget;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import snick.force.fit.CalibrationCurve;
import snick.force.fit.ForceRange;
import snick.force.mass.Distribution;
import snick.force.reading.RigSetting;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.quantity.Worded;

/**
 * What a deflection in counts is worth in force, with its uncertainty. Immutable.
 *
 * @param id name under which results refer to it; {@link #named} derives one from the contents
 * @param boundTo rig and setting it was made for; empty if it was typed in for any
 * @param made when it was made
 * @param validFor how long it counts as fresh; empty if no period was set
 * @param curve deflection as polynomial of force; rises all over the range
 * @param range range of force of the calibration
 * @param terms sources of uncertainty beside the fit and the peak estimate
 * @param basis how it came about, for people
 */
public record Calibration(
    String id,
    Optional<RigSetting> boundTo,
    Instant made,
    Optional<Duration> validFor,
    CalibrationCurve curve,
    ForceRange range,
    List<BudgetTerm> terms,
    String basis) {
  /** How fresh a calibration is. */
  public enum Validity implements Worded {
    /** Made after the instant asked about. */
    NOT_YET_MADE,
    /** Inside its period, or no period was set. */
    VALID,
    /** Its period is over: measure on, but calibrate again. */
    EXPIRED
  }

  /** Whether a calibration may be used on a rig as it is set now. */
  public sealed interface Fit {
    /** It may. */
    record Fits() implements Fit {}

    /**
     * It was made for another rig or another setting.
     *
     * @param reasons what differs, one sentence each
     */
    record Stranger(List<Phrase> reasons) implements Fit {
      public Stranger {
        reasons = List.copyOf(reasons);
      }
    }
  }

  private static final double WIDEST_NEWTONS = 1e5;

  public Calibration {
    terms = List.copyOf(terms);
    if (!curve.risesOver(range)) {
      throw new NotAccepted(
          Phrase.of("refused.curve_does_not_rise")
              .with("from", range.from().newtons())
              .with("to", range.to().newtons()));
    }
    if (validFor.isPresent() && (validFor.get().isNegative() || validFor.get().isZero())) {
      throw new IllegalArgumentException(
          "validity period " + validFor.get() + " is not above zero");
    }
  }

  /** A calibration whose id is derived from its contents: same contents, same id. */
  public static Calibration named(
      Optional<RigSetting> boundTo,
      Instant made,
      Optional<Duration> validFor,
      CalibrationCurve curve,
      ForceRange range,
      List<BudgetTerm> terms,
      String basis) {
    String contents =
        String.join("\n", "" + boundTo, "" + made, "" + validFor, "" + curve, "" + range)
            + terms
            + basis;
    String id =
        "cal-" + UUID.nameUUIDFromBytes(contents.getBytes(UTF_8)).toString().substring(0, 13);
    return new Calibration(id, boundTo, made, validFor, curve, range, terms, basis);
  }

  /**
   * A typed-in straight line through zero, exact as typed, for any rig and any force up to 10⁵ N.
   *
   * @param countsPerGramForce counts per gf, above 0
   * @param made when it was typed in
   */
  public static Calibration countsPerGramForce(double countsPerGramForce, Instant made) {
    return straightLine(
        Optional.empty(),
        made,
        new Line(countsPerGramForce / Force.NEWTONS_PER_GRAM_FORCE, 0, 0, 0),
        ForceRange.upToNewtons(WIDEST_NEWTONS));
  }

  /**
   * A typed-in straight line.
   *
   * @param slopeCountsPerNewton counts per N, above 0
   * @param slopeUncertaintyCountsPerNewton its standard uncertainty, not negative
   * @param offsetCounts deflection at no force, counts; 0 where the zero is taken before each cut
   * @param offsetUncertaintyCounts its standard uncertainty, not negative
   */
  public record Line(
      double slopeCountsPerNewton,
      double slopeUncertaintyCountsPerNewton,
      double offsetCounts,
      double offsetUncertaintyCounts) {
    public Line {
      if (!(slopeCountsPerNewton > 0 && Double.isFinite(slopeCountsPerNewton))) {
        throw new IllegalArgumentException(
            "slope " + slopeCountsPerNewton + " counts/N is not above 0 and finite");
      }
      if (!(slopeUncertaintyCountsPerNewton >= 0) || !(offsetUncertaintyCounts >= 0)) {
        throw new IllegalArgumentException(
            "standard uncertainties %s counts/N and %s counts: neither may be negative"
                .formatted(slopeUncertaintyCountsPerNewton, offsetUncertaintyCounts));
      }
    }

    /** The line as a curve; slope and offset count as uncorrelated. */
    public CalibrationCurve curve() {
      double slopeVariance = slopeUncertaintyCountsPerNewton * slopeUncertaintyCountsPerNewton;
      double offsetVariance = offsetUncertaintyCounts * offsetUncertaintyCounts;
      return new CalibrationCurve(
          new double[] {offsetCounts, slopeCountsPerNewton},
          new double[][] {{offsetVariance, 0}, {0, slopeVariance}},
          Double.POSITIVE_INFINITY);
    }
  }

  /** A calibration from a typed-in line; slope and offset count as uncorrelated. */
  public static Calibration straightLine(
      Optional<RigSetting> boundTo, Instant made, Line line, ForceRange range) {
    return named(boundTo, made, Optional.empty(), line.curve(), range, List.of(), "typed in");
  }

  /**
   * Force of a deflection with its combined standard uncertainty; see {@link #derive}, which also
   * says whether it lies inside the range.
   */
  public MeasuredForce force(double deflectionCounts, double peakStandardUncertaintyCounts) {
    return estimate(deflectionCounts, peakStandardUncertaintyCounts).force();
  }

  /**
   * Force of a deflection. The uncertainty combines fit covariance, budget terms and the peak's own
   * by JCGM 100:2008 equation (10); effective degrees of freedom by equation (G.2b), the peak's
   * counting as infinite.
   *
   * @param deflectionCounts reading above zero, positive in loading direction, finite
   * @param peakStandardUncertaintyCounts standard uncertainty of that deflection, not negative
   */
  public DerivedForce derive(double deflectionCounts, double peakStandardUncertaintyCounts) {
    DerivedForce.Inside estimate = estimate(deflectionCounts, peakStandardUncertaintyCounts);
    return range.holds(estimate.force().value().newtons())
        ? estimate
        : new DerivedForce.Outside(id, estimate.force(), range);
  }

  private DerivedForce.Inside estimate(double deflectionCounts, double peakUncertaintyCounts) {
    if (!Double.isFinite(deflectionCounts)
        || !(peakUncertaintyCounts >= 0 && Double.isFinite(peakUncertaintyCounts))) {
      throw new IllegalArgumentException(
          "deflection of "
              + deflectionCounts
              + " counts with standard uncertainty "
              + peakUncertaintyCounts
              + " counts: finite numbers needed, uncertainty not negative");
    }
    double newtons = newtons(deflectionCounts);
    List<Contribution> parts = contributions(newtons, peakUncertaintyCounts);
    double u = Contribution.combined(parts);
    return new DerivedForce.Inside(
        id, MeasuredForce.ofNewtons(newtons, u), Contribution.effectiveDegreesOfFreedom(parts));
  }

  /**
   * Force of a deflection alone, N: beyond the range along the tangent at its nearest end.
   *
   * @param deflectionCounts reading above zero, positive in loading direction, finite
   */
  public double newtons(double deflectionCounts) {
    return curve.newtons(deflectionCounts, range);
  }

  /**
   * Every contribution to the uncertainty of a force, in the order fit, terms, peak.
   *
   * @param newtons force, N
   * @param peakStandardUncertaintyCounts the peak's own, counts
   */
  public List<Contribution> contributions(double newtons, double peakStandardUncertaintyCounts) {
    double contact = Math.min(range.to().newtons(), Math.max(range.from().newtons(), newtons));
    double newtonsPerCount = 1 / curve.slopeCountsPerNewton(contact);
    List<Contribution> parts = new ArrayList<>();
    parts.add(
        new Contribution(
            BudgetTerm.Source.FIT,
            Distribution.STUDENT_T,
            curve.tangentUncertaintyCounts(contact, newtons) * newtonsPerCount,
            curve.degreesOfFreedom()));
    for (BudgetTerm term : terms) {
      parts.add(
          new Contribution(
              term.source(),
              term.distribution(),
              term.standardUncertaintyNewtons(newtons),
              term.degreesOfFreedom()));
    }
    parts.add(
        new Contribution(
            BudgetTerm.Source.PEAK_ESTIMATE,
            Distribution.NORMAL,
            peakStandardUncertaintyCounts * newtonsPerCount,
            Double.POSITIVE_INFINITY));
    return List.copyOf(parts);
  }

  /** Whether this calibration may be used on a rig that is set as {@code now}. */
  public Fit fits(RigSetting now) {
    List<Phrase> reasons = boundTo.map(made -> made.differences(now)).orElse(List.of());
    return reasons.isEmpty() ? new Fit.Fits() : new Fit.Stranger(reasons);
  }

  /** How fresh it is at {@code when}. */
  public Validity validityAt(Instant when) {
    if (when.isBefore(made)) {
      return Validity.NOT_YET_MADE;
    }
    boolean over = validFor.isPresent() && when.isAfter(made.plus(validFor.get()));
    return over ? Validity.EXPIRED : Validity.VALID;
  }
}
