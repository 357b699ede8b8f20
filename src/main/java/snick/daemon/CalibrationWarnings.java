package snick.daemon;

import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import snick.force.budget.Calibration;
import snick.force.check.EwmaChart;
import snick.force.check.IndividualsChart;
import snick.phrase.Phrase;
import snick.store.record.Verification;

/** What a person should know of the calibration in use before trusting its forces. */
public final class CalibrationWarnings {
  /** A check mass counts as fresh for so long: one before a session (own rule). */
  public static final Duration FRESH = Duration.ofDays(1);

  private static final int FEWEST_FOR_A_CHART = 5;

  private CalibrationWarnings() {}

  /**
   * The warnings, one sentence each; the same text for the same state.
   *
   * @param checks verifications of the rig, oldest first; those of other calibrations do not count
   */
  public static List<Phrase> of(Calibration calibration, List<Verification> checks, Instant now) {
    List<Phrase> warnings = new ArrayList<>();
    if (calibration.validityAt(now) == Calibration.Validity.EXPIRED) {
      warnings.add(
          Phrase.of("warning.expired")
              .with("id", calibration.id())
              .with("at", calibration.made().plus(calibration.validFor().orElseThrow())));
    }
    List<Verification> own =
        checks.stream().filter(c -> c.calibrationId().equals(calibration.id())).toList();
    if (own.isEmpty()) {
      neverChecked(calibration, now, warnings);
    } else {
      lastCheck(own.get(own.size() - 1), now, warnings);
      drift(own, warnings);
    }
    return List.copyOf(warnings);
  }

  private static void neverChecked(Calibration calibration, Instant now, List<Phrase> warnings) {
    if (calibration.made().plus(FRESH).isBefore(now)) {
      warnings.add(Phrase.of("warning.never_checked", "id", calibration.id()));
    }
  }

  private static void lastCheck(Verification last, Instant now, List<Phrase> warnings) {
    if (!last.withinLimit()) {
      warnings.add(
          Phrase.of("warning.out_of_limits")
              .with("at", last.at().truncatedTo(ChronoUnit.SECONDS))
              .with("percent", String.format(Locale.ROOT, "%+.3g", errorPercent(last))));
    }
    if (last.at().plus(FRESH).isBefore(now)) {
      warnings.add(
          Phrase.of("warning.check_is_old", "at", last.at().truncatedTo(ChronoUnit.SECONDS)));
    }
  }

  private static void drift(List<Verification> checks, List<Phrase> warnings) {
    if (checks.size() < FEWEST_FOR_A_CHART) {
      return;
    }
    double[] errors = checks.stream().mapToDouble(CalibrationWarnings::errorPercent).toArray();
    double sigma = IndividualsChart.of(errors).sigma();
    if (!(sigma > 0)) {
      return;
    }
    List<EwmaChart.Point> averages = EwmaChart.usual(0, sigma).chart(errors);
    if (!averages.get(averages.size() - 1).within()) {
      warnings.add(Phrase.of("warning.checks_drift"));
    }
  }

  private static double errorPercent(Verification check) {
    double known = check.known().value().newtons();
    return 100 * (check.shown().value().newtons() - known) / known;
  }
}
