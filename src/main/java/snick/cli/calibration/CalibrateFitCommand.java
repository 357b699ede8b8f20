package snick.cli.calibration;

import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Table;
import snick.cli.terminal.TypedCommand;
import snick.force.fit.CalibrationCurve;
import snick.force.fit.DegreeRule;
import snick.force.fit.PointsFit;
import snick.force.fit.PolynomialFit;
import snick.force.mass.LoadUnit;

/** Fits a calibration curve to a table of points. Saves nothing. */
@Command(
    name = "fit",
    description = {
      "Fit readings as a polynomial of load to a table of points; saves nothing.",
      "Columns: load,reading and if you like run,direction,u_load (standard uncertainty; the errors"
          + " of masses are common to all their rows, as in points)."
    },
    footer = {
      "  snick calibrate fit rig-calibration/example-run-simulated.csv \\",
      "    --latitude 48.1 --height 520",
      "  snick calibrate fit points.csv --degree 2 --load-unit N --json",
      "  cat points.csv | snick calibrate fit - --no-corrections --json"
    })
final class CalibrateFitCommand extends TypedCommand implements Runnable {
  @Parameters(paramLabel = "POINTS.csv", description = "Points, or - for standard input.")
  private String file;

  @Mixin private DegreeChoice degree;

  @Option(
      names = "--load-unit",
      paramLabel = "UNIT",
      defaultValue = "g",
      description = "Unit of the loads: g, kg, N or gf (default: ${DEFAULT-VALUE}).")
  private String loadUnit;

  @Option(
      names = "--no-corrections",
      description = "Take loads as given: no gravity, no buoyancy, no force form for masses.")
  private boolean noCorrections;

  @Option(names = "--through-origin", description = "Hold the curve at reading 0 for load 0.")
  private boolean throughOrigin;

  @Mixin private PlaceChoice place;

  @Option(names = "--json", description = "As one JSON object, every digit.")
  private boolean json;

  @Override
  public void run() {
    LoadUnit unit = unit();
    DegreeRule rule = degree.rule();
    Optional<PointsFit.Place> where = where(unit);
    PointsFit fit = fit(PointsFile.read(file), unit, rule, where);
    requireMonotonic(fit.choice().fit(), unit);
    tell(json, () -> FitJson.of(fit, where), () -> print(fit, where));
  }

  private LoadUnit unit() {
    return Refusal.ifNotAccepted(
        () -> LoadUnit.named(loadUnit), why -> Refusal.usage("--load-unit: " + why));
  }

  private Optional<PointsFit.Place> where(LoadUnit unit) {
    return noCorrections || unit.isForce()
        ? Optional.empty()
        : Optional.of(new PointsFit.Place(place.gravityOrAnywhere(), place.air()));
  }

  private PointsFit fit(
      List<PointsFit.Point> points,
      LoadUnit unit,
      DegreeRule rule,
      Optional<PointsFit.Place> where) {
    return Refusal.ifNotAccepted(
        () -> PointsFit.fit(points, unit, rule, new PointsFit.Options(throughOrigin), where),
        why -> Refusal.badInput(file + ": " + why));
  }

  private void requireMonotonic(PolynomialFit fit, LoadUnit unit) {
    if (!fit.isMonotonic()) {
      throw Refusal.badInput(
          "%s: the curve of degree %s turns round between the smallest and the largest load"
              + " (%s), so that one reading would have two loads; use a lower --degree, or look"
              + " for a wrong line",
          file, fit.form().degree(), unit.symbol());
    }
  }

  private void print(PointsFit fit, Optional<PointsFit.Place> where) {
    PolynomialFit curve = fit.choice().fit();
    println("Reading as polynomial of load in " + fit.unit().symbol() + ":");
    coefficients(curve.coefficients(), curve.standardErrors()).print(out());
    out().println();
    println("degree           " + curve.form().degree() + ": " + fit.choice().reason());
    println("residual SD      " + FitJson.digits(curve.residualSd()) + " in the reading's unit");
    println("deg. of freedom  " + curve.degreesOfFreedom());
    println("R²               " + FitJson.digits(curve.rSquared()) + " (says nothing of shape)");
    fit.byLoads()
        .ifPresent(
            u ->
                println(
                    "by the loads     %s of a load, standard uncertainty, all loads erring the same"
                        + " way (not in the errors above)",
                    FitJson.digits(u)));
    fit.overForce().ifPresent(force -> printForce(force, where));
  }

  private static Table coefficients(double[] values, double[] errors) {
    Table table = new Table("POWER OF LOAD", ">VALUE", ">STANDARD ERROR");
    for (int i = 0; i < values.length; i++) {
      table.row(i, FitJson.digits(values[i]), FitJson.digits(errors[i]));
    }
    return table;
  }

  private void printForce(CalibrationCurve force, Optional<PointsFit.Place> where) {
    double[] errors = FitJson.standardErrors(force);
    out().println();
    println("The same over force in N:");
    coefficients(force.coefficients(), errors).print(out());
    where.ifPresent(
        p -> {
          out().println();
          println(
              "gravity          %s m/s², standard uncertainty %s (not in the errors above): %s",
              FitJson.digits(p.gravity().metresPerSecondSquared()),
              FitJson.digits(p.gravity().standardUncertainty()),
              p.gravity().basis());
          println(
              "air              %s kg/m³: %s",
              FitJson.digits(p.air().kilogramsPerCubicMetre()), p.air().basis());
        });
  }
}
