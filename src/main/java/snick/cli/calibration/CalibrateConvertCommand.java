package snick.cli.calibration;

import java.util.Map;
import java.util.Optional;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.DataCommand;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.Numbers;
import snick.cli.terminal.Refusal;
import snick.force.budget.Calibration;
import snick.force.budget.CombinedUncertainty;
import snick.json.Json;
import snick.quantity.Force;
import snick.store.StoreReader;

/** What a reading is worth by a stored calibration, and what reading a force gives. */
@Command(
    name = "convert",
    description = {
      "Force for counts, or counts for a force, by a stored calibration, with the 95 %% interval of"
          + " its fit and budget. Counts are above zero, in loading direction."
    },
    footer = {
      "  snick calibrate convert --counts 43725                 the newest calibration",
      "  snick calibrate convert cal-0123 --gf 100",
      "  snick calibrate convert --newtons 1.5 --json",
      "  snick calibrate convert --counts 43725 --u-counts 20   with its scatter"
    })
final class CalibrateConvertCommand extends DataCommand implements Runnable {

  @Parameters(
      paramLabel = "ID",
      arity = "0..1",
      description = "Id or the beginning of it (default: the newest).")
  private Optional<String> id;

  @ArgGroup(exclusive = true, multiplicity = "1")
  private Given given;

  /** What is converted. */
  private static final class Given {
    @Option(names = "--counts", paramLabel = "N", description = "Reading above zero, counts.")
    private Double counts;

    @Option(names = "--gf", paramLabel = "GF", description = "Force, gf.")
    private Double gramForce;

    @Option(names = "--newtons", paramLabel = "N", description = "Force, N.")
    private Double newtons;
  }

  @Option(
      names = "--u-counts",
      paramLabel = "N",
      defaultValue = "0",
      description = "Standard uncertainty of the reading itself, counts (default: 0).")
  private double readingUncertaintyCounts;

  @Option(names = "--json", description = "As one JSON object, every digit.")
  private boolean json;

  /**
   * A force and its reading.
   *
   * @param counts reading above zero
   * @param countsPerNewton slope there
   * @param force the force with its uncertainty
   */
  private record Pair(double counts, double countsPerNewton, CombinedUncertainty force) {
    double expandedCounts() {
      return force.expandedNewtons() * countsPerNewton;
    }
  }

  @Override
  public void run() {
    if (!(readingUncertaintyCounts >= 0 && Double.isFinite(readingUncertaintyCounts))) {
      throw Refusal.badInput("--u-counts " + readingUncertaintyCounts + ": 0 or more is needed");
    }
    Calibration calibration;
    try (StoreReader store = OpenedStore.toRead(data)) {
      calibration = ChosenCalibration.of(store, id.orElse("")).calibration();
    }
    Pair pair = given.counts == null ? ofForce(calibration) : ofCounts(calibration);
    tell(json, () -> object(calibration, pair), () -> print(calibration, pair));
  }

  private Pair ofCounts(Calibration calibration) {
    if (!Double.isFinite(given.counts)) {
      throw Refusal.badInput("--counts " + given.counts + ": a finite number is needed");
    }
    return pair(calibration, given.counts, calibration.newtons(given.counts));
  }

  private Pair ofForce(Calibration calibration) {
    double newtons =
        given.newtons == null ? Force.ofGramForce(given.gramForce).newtons() : given.newtons;
    if (!calibration.range().holds(newtons)) {
      throw Refusal.badInput(
          "%s N is outside the calibrated range, %s to %s N;"
              + " ask inside it, or calibrate further",
          newtons, calibration.range().from().newtons(), calibration.range().to().newtons());
    }
    return pair(calibration, calibration.curve().deflectionCounts(newtons), newtons);
  }

  private Pair pair(Calibration calibration, double counts, double newtons) {
    double from = calibration.range().from().newtons();
    double to = calibration.range().to().newtons();
    return new Pair(
        counts,
        calibration.curve().slopeCountsPerNewton(Math.min(to, Math.max(from, newtons))),
        new CombinedUncertainty(
            newtons, calibration.contributions(newtons, readingUncertaintyCounts)));
  }

  private static Map<String, Object> object(Calibration calibration, Pair pair) {
    double newtons = pair.force().newtons();
    double expanded = pair.force().expandedNewtons();
    return Json.object(
        "calibration",
        calibration.id(),
        "counts",
        pair.counts(),
        "counts_from",
        pair.counts() - pair.expandedCounts(),
        "counts_to",
        pair.counts() + pair.expandedCounts(),
        "force_n",
        newtons,
        "u_force_n",
        pair.force().standardNewtons(),
        "force_from_n",
        newtons - expanded,
        "force_to_n",
        newtons + expanded,
        "coverage_factor",
        pair.force().coverageFactor(),
        "in_range",
        calibration.range().holds(newtons));
  }

  private void print(Calibration calibration, Pair pair) {
    double newtons = pair.force().newtons();
    double expanded = pair.force().expandedNewtons();
    String force =
        Numbers.plusMinus(newtons, expanded)
            + " N = "
            + Numbers.plusMinus(gramForce(newtons), gramForce(expanded))
            + " gf";
    String counts = Numbers.plusMinus(pair.counts(), pair.expandedCounts()) + " counts above zero";
    println(given.counts == null ? force(newtons) + ": " + counts : counts() + ": " + force);
    println(
        String.format(
            java.util.Locale.ROOT,
            "95 %% interval, k = %.2f: fit and budget of %s",
            pair.force().coverageFactor(),
            calibration.id()));
    if (!calibration.range().holds(newtons)) {
      println(
          "Outside the calibrated range, to "
              + calibration.range().to().newtons()
              + " N: carried on along the tangent, with more doubt than the interval says.");
    }
  }

  private static double gramForce(double newtons) {
    return newtons / Force.ofGramForce(1).newtons();
  }

  private static String force(double newtons) {
    return "%s N = %s gf"
        .formatted(Numbers.plusMinus(newtons, 0), Numbers.plusMinus(gramForce(newtons), 0));
  }

  private String counts() {
    return Numbers.plusMinus(given.counts, 0) + " counts above zero";
  }
}
