package snick.force.budget;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import snick.force.fit.DegreeRule;
import snick.force.fit.ForceRange;
import snick.force.fit.PolynomialFit;
import snick.force.mass.Load;
import snick.force.reading.CalibrationData;
import snick.force.reading.CalibrationRun;
import snick.force.reading.Deflection;
import snick.force.reading.Direction;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/**
 * A calibration worked out from what was read at the bench.
 *
 * @param calibration the result
 * @param choice fit of deflection over force in N, through zero, on the rising points
 * @param deflections every reading under load, in the order taken
 * @param figures figures of merit
 * @param notes what could not be worked out and what to know, one sentence each
 */
public record Evaluation(
    Calibration calibration,
    DegreeRule.Choice choice,
    List<Deflection> deflections,
    List<Figure> figures,
    List<Phrase> notes) {
  public Evaluation {
    deflections = List.copyOf(deflections);
    figures = List.copyOf(figures);
    notes = List.copyOf(notes);
  }

  /**
   * Works out a calibration. The curve goes through zero, as deflections do by their definition,
   * and follows the rising points, as a cut loads the cell rising from zero.
   *
   * @throws IllegalArgumentException if loads are too few or too alike, or the curve does not rise
   */
  public static Evaluation of(
      CalibrationData data, Conditions conditions, DegreeRule rule, Instant made) {
    List<Deflection> deflections = deflections(data, conditions);
    double[] x = rising(deflections).stream().mapToDouble(Deflection::newtons).toArray();
    double[] y = rising(deflections).stream().mapToDouble(Deflection::counts).toArray();
    requireTwoLoads(x);
    double[] equal = new double[x.length];
    Arrays.fill(equal, 1);
    DegreeRule.Choice choice = rule.fit(x, y, equal, true);
    requireRising(choice.fit(), x);
    FiguresOfMerit merit = new FiguresOfMerit(data, deflections, choice.fit());
    BudgetOfRuns budget = new BudgetOfRuns(data, conditions, deflections, choice.fit());
    Calibration calibration =
        Calibration.named(
            Optional.of(data.setting()),
            made,
            conditions.stability().validFor(),
            budget.curve(),
            ForceRange.upToNewtons(Arrays.stream(x).max().orElse(0)),
            budget.terms(),
            data.runs().size()
                + (data.runs().size() == 1 ? " run, " : " runs, ")
                + choice.reason());
    return new Evaluation(calibration, choice, deflections, merit.all(), budget.notes());
  }

  private static void requireTwoLoads(double[] newtons) {
    long loads = Arrays.stream(newtons).distinct().count();
    if (loads < 2) {
      throw new NotAccepted("refused.too_few_loads", "n", loads);
    }
  }

  private static void requireRising(PolynomialFit fit, double[] newtons) {
    double largest = Arrays.stream(newtons).max().orElse(0);
    if (!(fit.predict(largest) > 0)) {
      throw new NotAccepted(
          "refused.against_the_load", "load", largest, "counts", fit.predict(largest));
    }
  }

  private static List<Deflection> rising(List<Deflection> all) {
    return all.stream().filter(d -> d.direction() == Direction.UP).toList();
  }

  private static List<Deflection> deflections(CalibrationData data, Conditions conditions) {
    List<Deflection> all = new ArrayList<>();
    for (int run = 0; run < data.runs().size(); run++) {
      CalibrationRun one = data.runs().get(run);
      for (CalibrationRun.Loaded loaded : one.loaded()) {
        Load.Exerted exerted = loaded.load().exerted(conditions.gravity(), conditions.air());
        all.add(
            new Deflection(
                run + 1,
                loaded.direction(),
                loaded.load().name(),
                exerted.force().newtons(),
                one.deflectionCounts(loaded, data.setting().polarity())));
      }
    }
    return all;
  }
}
