package snick.cli.option;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import picocli.CommandLine.Option;
import snick.verdict.Judge;
import snick.verdict.RigRepeatability;

/** What a verdict is measured by: margin and rig's repeatability. */
public final class JudgeChoice {
  @Option(
      names = "--margin",
      paramLabel = "GF",
      description = "Largest difference that does not matter to you, gf.")
  private Optional<Double> marginGf = Optional.empty();

  @Option(
      names = "--rig-sd",
      paramLabel = "GF",
      description =
          "The rig's repeatability, gf (default: the study last kept for the session's rig).")
  private Optional<Double> rigSdGf = Optional.empty();

  @Option(
      names = "--rig-df",
      paramLabel = "N",
      defaultValue = "1",
      description = "Its degrees of freedom, with --rig-sd (default: ${DEFAULT-VALUE}, cautious).")
  private double rigDegreesOfFreedom;

  @Option(
      names = "--planned",
      paramLabel = "N",
      description =
          "Cuts a stage that you decided on before looking: until there are so many a verdict "
              + "needs p below 0.001, so that looking early misleads nobody; later ones are left out.")
  private Optional<Integer> planned = Optional.empty();

  /** The judge when nothing is known of the rig but what was typed. */
  public Judge judge() {
    return judge(Optional.empty());
  }

  /** The judge; what was typed goes before what was {@code kept} of the rig. */
  public Judge judge(Optional<RigRepeatability> kept) {
    Optional<RigRepeatability> rig =
        rigSdGf.map(sd -> new RigRepeatability(sd, rigDegreesOfFreedom, "as typed")).or(() -> kept);
    return new Judge(
        marginGf.map(OptionalDouble::of).orElseGet(OptionalDouble::empty),
        rig,
        planned.map(OptionalInt::of).orElseGet(OptionalInt::empty));
  }
}
