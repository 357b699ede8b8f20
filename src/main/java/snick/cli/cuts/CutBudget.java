package snick.cli.cuts;

import java.io.PrintWriter;
import java.util.Optional;
import snick.cli.calibration.CalibrationText;
import snick.cli.terminal.Numbers;
import snick.cli.terminal.Table;
import snick.cut.Peak;
import snick.force.budget.Calibration;
import snick.force.budget.CombinedUncertainty;
import snick.force.budget.Contribution;
import snick.store.StoreReader;
import snick.store.record.CutForce;
import snick.store.record.StoredCalibration;
import snick.store.record.StoredCut;

/** The uncertainty of one cut's current force, source by source, its peak's own included. */
final class CutBudget {
  private CutBudget() {}

  /** The budget of {@code cut}; empty if it has no force. */
  static Optional<CombinedUncertainty> of(StoredCut cut, StoreReader store) {
    Optional<CutForce> force = cut.summary().force();
    Optional<Peak> peak = cut.summary().figures().peak();
    if (peak.isEmpty() || force.isEmpty()) {
      return Optional.empty();
    }
    double newtons = force.get().measured().value().newtons();
    return store
        .calibration(force.get().calibrationId())
        .map(StoredCalibration::calibration)
        .map(calibration -> of(calibration, newtons, peak.get()));
  }

  private static CombinedUncertainty of(Calibration calibration, double newtons, Peak peak) {
    return new CombinedUncertainty(
        newtons, calibration.contributions(newtons, peak.standardUncertaintyCounts()));
  }

  static void print(PrintWriter out, CombinedUncertainty budget) {
    Table table =
        new Table("SOURCE", "DISTRIBUTION", ">STANDARD gf", ">DEGREES OF FREEDOM", ">SHARE %");
    double variance = Math.pow(budget.standardNewtons(), 2);
    for (Contribution part : budget.parts()) {
      double u = part.standardUncertaintyNewtons();
      table.row(
          part.source().plain(),
          part.distribution().plain(),
          CalibrationText.small(u),
          CalibrationText.freedom(part.degreesOfFreedom()),
          Numbers.fixed(variance > 0 ? 100 * u * u / variance : 0, 1));
    }
    table.row(
        "combined",
        "",
        CalibrationText.small(budget.standardNewtons()),
        CalibrationText.freedom(budget.degreesOfFreedom()),
        "");
    table.print(out);
    out.println(
        "expanded, 95 %: "
            + CalibrationText.small(budget.expandedNewtons())
            + " gf, k = "
            + Numbers.fixed(budget.coverageFactor(), 2)
            + " (Student's t, for so many degrees of freedom; the force above has k = 2, as"
            + " wherever cuts are listed)");
  }
}
