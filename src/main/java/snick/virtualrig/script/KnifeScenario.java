package snick.virtualrig.script;

import java.util.List;
import java.util.stream.IntStream;

/**
 * A story for demonstrations: one kitchen knife as found, deburred and stropped, six cuts along the
 * edge each time. Knife and all figures are invented; they say nothing about any real edge.
 */
public final class KnifeScenario {
  private static final double[] PLACES_MILLIMETRES = {20, 50, 80, 110, 140, 170};
  private static final double REST_SECONDS = 0.8;

  private KnifeScenario() {}

  /**
   * One stage of the story.
   *
   * @param name what was done to the edge before
   * @param burr whether a burr is felt along the edge
   * @param script its cuts
   */
  public record Stage(String name, boolean burr, Script script) {}

  /** The stages in order. Strengths in gf, loading rates in gf/s. */
  public static List<Stage> stages() {
    return List.of(
        stage(
            "as found",
            true,
            new double[] {193.4, 226.1, 178.8, 214.7, 203.2, 221.9},
            new double[] {104, 121, 96, 133, 110, 118}),
        stage(
            "deburred",
            false,
            new double[] {127.6, 134.9, 138.3, 124.1, 131.5, 141.2},
            new double[] {98, 112, 87, 105, 120, 94}),
        stage(
            "stropped",
            false,
            new double[] {93.8, 89.9, 96.7, 91.2, 98.4, 94.5},
            new double[] {82, 95, 103, 78, 91, 88}));
  }

  /** The same work once more after the last of {@link #stages}: it gains nothing. */
  public static Stage onceMore() {
    return stage(
        "stropped again",
        false,
        new double[] {92.4, 95.1, 93.0, 96.2, 90.8, 94.9},
        new double[] {90, 84, 99, 93, 86, 97});
  }

  private static Stage stage(
      String name, boolean burr, double[] strengthsGramForce, double[] ratesGramForcePerSecond) {
    List<Action> actions =
        IntStream.range(0, PLACES_MILLIMETRES.length)
            .boxed()
            .<Action>mapMulti(
                (i, next) -> {
                  next.accept(new Action.Rest(REST_SECONDS));
                  next.accept(
                      Action.Cut.ofGramForce(strengthsGramForce[i], ratesGramForcePerSecond[i])
                          .withDips(burr ? 1 + i % 3 : 0)
                          .atMillimetres(PLACES_MILLIMETRES[i]));
                })
            .toList();
    return new Stage(name, burr, new Script(actions).then(new Action.Rest(REST_SECONDS)));
  }
}
