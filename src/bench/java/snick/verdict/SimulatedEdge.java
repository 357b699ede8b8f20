package snick.verdict;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import snick.journal.Finding;
import snick.journal.Inspection;
import snick.journal.Inspection.Look;
import snick.journal.Method;
import snick.journal.Side;
import snick.journal.Stage;
import snick.quantity.Force;
import snick.verdict.burr.StageEvidence;
import snick.verdict.burr.StageEvidence.PlacedCut;
import snick.verdict.comparison.RigRepeatability;
import snick.verdict.statistic.Readings;

/**
 * Invented edges with and without a burr, and a person who looks at them. Every figure here is an
 * assumption made for the simulation, none was measured.
 */
final class SimulatedEdge {
  /** Scatter of the rig and the edge together, as a share of the force. */
  static final double REALISTIC_SCATTER = 0.08;

  private static final double CLEAN_GF = 100;
  private static final double RIG_SHARE = 0.04;
  private static final double BURR_AT_A_SPOT = 0.6;
  private static final double BURR_EXCESS = 0.35;
  private static final double LEFT_BY_FIRST_CUT = 0.3;
  private static final double DIPS_OVER_BURR = 0.45;
  private static final double DIPS_OTHERWISE = 0.04;
  private static final double LIGHT_SEES = 0.75;
  private static final double LIGHT_FALSE = 0.04;
  private static final double PAPER_TEARS = 0.55;
  private static final double PAPER_FALSE = 0.05;

  private final Random random;

  SimulatedEdge(long seed) {
    this.random = new Random(seed);
  }

  /** What a simulated person brings. */
  enum Brings {
    CUTS,
    INSPECTIONS,
    BOTH
  }

  /** The repeatability of the simulated rig, as if from a study of 20 cuts. */
  static RigRepeatability rig() {
    return new RigRepeatability(RIG_SHARE * CLEAN_GF, 19, "simulated study");
  }

  /** One stage of an edge: six spots, two of them cut twice; both sides and paper looked at. */
  StageEvidence stage(boolean burred, Brings brings) {
    Stage stage = new Stage(1, burred ? "burred" : "clean");
    List<PlacedCut> cuts = brings == Brings.INSPECTIONS ? List.of() : cuts(burred);
    List<Inspection> looks = brings == Brings.CUTS ? List.of() : looks(stage, burred);
    return new StageEvidence(stage, cuts, looks, List.of());
  }

  private List<PlacedCut> cuts(boolean burred) {
    List<PlacedCut> cuts = new ArrayList<>();
    for (int spot = 0; spot < 6; spot++) {
      double excess =
          burred && random.nextDouble() < BURR_AT_A_SPOT
              ? BURR_EXCESS * Math.exp(0.4 * random.nextGaussian())
              : 0;
      cuts.add(cut(spot, excess));
      if (spot < 2) {
        cuts.add(cut(spot, excess * LEFT_BY_FIRST_CUT));
      }
    }
    return cuts;
  }

  private PlacedCut cut(int spot, double excess) {
    double gf = CLEAN_GF * (1 + excess) * (1 + RIG_SHARE * random.nextGaussian());
    double dips = excess > 0 ? DIPS_OVER_BURR : DIPS_OTHERWISE;
    return new PlacedCut(
        Force.ofGramForce(gf), OptionalDouble.of(10.0 * spot + 10), random.nextDouble() < dips);
  }

  private List<Inspection> looks(Stage stage, boolean burred) {
    Side leans = random.nextBoolean() ? Side.LEFT : Side.RIGHT;
    List<Inspection> looks = new ArrayList<>();
    for (Side side : List.of(Side.LEFT, Side.RIGHT)) {
      double sees = burred && side == leans ? LIGHT_SEES : LIGHT_FALSE;
      Finding finding = random.nextDouble() < sees ? Finding.BURR_SEEN : Finding.NONE;
      looks.add(look(stage, Method.RAKING_LIGHT, side, finding));
    }
    double tears = burred ? PAPER_TEARS : PAPER_FALSE;
    Finding paper = random.nextDouble() < tears ? Finding.TEARS : Finding.CLEAN;
    looks.add(look(stage, Method.THIN_PAPER, Side.BOTH, paper));
    return looks;
  }

  private static Inspection look(Stage stage, Method method, Side side, Finding finding) {
    return new Inspection(
        Instant.EPOCH,
        stage.name(),
        new Look(method, OptionalDouble.empty()),
        side,
        Optional.empty(),
        finding,
        "");
  }

  /** {@code n} cuts around a mean with a scatter in proportion to it, gf. */
  Readings readings(String name, int n, double meanGf, double scatterShare) {
    double[] gf = new double[n];
    for (int i = 0; i < n; i++) {
      gf[i] = meanGf * (1 + scatterShare * random.nextGaussian());
    }
    return Readings.ofGramForce(name, gf);
  }

  /** As {@link #readings}, but one cut in twenty reads half as much again. */
  Readings withSlips(String name, int n, double meanGf, double scatterShare) {
    double[] gf = readings(name, n, meanGf, scatterShare).gramForce();
    for (int i = 0; i < n; i++) {
      gf[i] *= random.nextDouble() < 0.05 ? 1.5 : 1;
    }
    return Readings.ofGramForce(name, gf);
  }

  /** As {@link #readings}, but log-normal and rounded to whole gf, so that ties occur. */
  Readings skewedAndRounded(String name, int n, double meanGf, double scatterShare) {
    double[] gf = new double[n];
    for (int i = 0; i < n; i++) {
      gf[i] = Math.rint(meanGf * Math.exp(2 * scatterShare * random.nextGaussian()));
    }
    return Readings.ofGramForce(name, gf);
  }
}
