package snick.cli.option;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import picocli.CommandLine.Option;
import snick.cli.terminal.Figures;
import snick.cli.terminal.Said;
import snick.journal.Margin;
import snick.store.KeptStudy;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.verdict.comparison.Judge;
import snick.verdict.comparison.RigRepeatability;

/** What a verdict is measured by: margin and rig's repeatability. */
public final class JudgeChoice {
  @Option(
      names = "--margin",
      paramLabel = "GF",
      description =
          "Largest difference that does not matter to you, gf (default: the blade's, else as set; see"
              + " snick settings).")
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

  /** The judge of typed values: nothing is known of their blade and rig but what was typed. */
  public Judge judge(Settings settings) {
    return Judge.of(Margin.of(typedMargin(), settings.marginGf()), rig(Optional.empty()))
        .withPlanned(planned());
  }

  /** The judge of a session; what was typed goes before what is kept of blade and rig. */
  public Judge judge(Settings settings, StoreReader store, SessionEvidence session) {
    return Judge.of(
            Margin.of(typedMargin(), session.blade(), settings.marginGf()),
            rig(KeptStudy.of(store, session.measured())))
        .withPlanned(planned());
  }

  private OptionalInt planned() {
    return planned.map(OptionalInt::of).orElseGet(OptionalInt::empty);
  }

  private OptionalDouble typedMargin() {
    return marginGf.map(OptionalDouble::of).orElseGet(OptionalDouble::empty);
  }

  private Optional<RigRepeatability> rig(Optional<RigRepeatability> kept) {
    return rigSdGf
        .map(sd -> new RigRepeatability(sd, rigDegreesOfFreedom, "as typed"))
        .or(() -> kept);
  }

  /** The margin of a judge and where it is from, in one line; empty if it has none. */
  public static Optional<String> marginLine(Judge judge) {
    return judge.marginGf().stream()
        .mapToObj(
            gf -> "Margin: " + Figures.gf(gf) + ", " + Said.of(judge.marginFrom().orElseThrow()))
        .findFirst();
  }
}
