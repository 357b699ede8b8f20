package snick.verdict;

import java.io.PrintStream;
import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.verdict.burr.BurrEvidence;
import snick.verdict.burr.BurrVerdict.Burr;
import snick.verdict.comparison.Judge;

/**
 * Prints how the burr evidence fares on simulated edges. Run: {@code java -cp
 * target/classes:target/test-classes:<dependencies> snick.verdict.BurrErrorRates [edges]}.
 */
public final class BurrErrorRates {
  private static final int EDGES = 5000;
  private static final long SEED = 4;

  private BurrErrorRates() {}

  /** Optional argument: edges of each kind. */
  public static void main(String[] args) {
    int edges = args.length == 0 ? EDGES : Integer.parseInt(args[0]);
    print(System.out, edges);
  }

  static void print(PrintStream out, int edges) {
    out.printf(
        Locale.ROOT,
        "simulated edges, %d of each kind, seed %d; outcomes in %%%n%-12s %-7s %8s %9s %14s%n",
        edges,
        SEED,
        "evidence",
        "edge",
        "likely",
        "possible",
        "not_indicated");
    for (SimulatedEdge.Brings brings : SimulatedEdge.Brings.values()) {
      for (boolean burred : new boolean[] {true, false}) {
        Map<Burr, Double> share = shares(burred, brings, edges);
        out.printf(
            Locale.ROOT,
            "%-12s %-7s %8.1f %9.1f %14.1f%n",
            brings.name().toLowerCase(Locale.ROOT),
            burred ? "burred" : "clean",
            100 * share.get(Burr.LIKELY),
            100 * share.get(Burr.POSSIBLE),
            100 * share.get(Burr.NOT_INDICATED));
      }
    }
  }

  /** Share of each outcome over {@code edges} simulated edges. */
  static Map<Burr, Double> shares(boolean burred, SimulatedEdge.Brings brings, int edges) {
    SimulatedEdge simulated = new SimulatedEdge(SEED);
    BurrEvidence evidence =
        new BurrEvidence(new Judge(OptionalDouble.empty(), Optional.of(SimulatedEdge.rig())));
    Map<Burr, Double> share = new EnumMap<>(Burr.class);
    for (Burr burr : Burr.values()) {
      share.put(burr, 0.0);
    }
    for (int i = 0; i < edges; i++) {
      Burr burr = evidence.weigh(simulated.stage(burred, brings)).burr();
      share.merge(burr, 1.0 / edges, Double::sum);
    }
    return share;
  }
}
