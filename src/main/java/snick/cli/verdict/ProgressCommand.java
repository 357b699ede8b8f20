package snick.cli.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import snick.cli.option.JudgeChoice;
import snick.cli.option.ReadingCommand;
import snick.cli.option.SessionChoice;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.Judge;
import snick.verdict.comparison.Progression;
import snick.verdict.statistic.Readings;

/** The whole session: stages, steps, plateau. */
@Command(
    name = "progress",
    description = {
      "Show all stages of a session: which step changed the force, with the p-values adjusted for"
          + " the number of steps (Holm), and whether a plateau is reached within --margin or"
          + " within what the rig can show."
    },
    footer = {
      "  snick progress",
      "  snick progress --session evening --margin 6",
      "  snick progress --session evening --json",
    })
public final class ProgressCommand extends ReadingCommand {
  private static final int LEAST_CUTS = 2;

  @Mixin private SessionChoice chosen;
  @Mixin private JudgeChoice judge;

  @Option(names = "--json", description = "As one JSON object, every digit.")
  private boolean json;

  @Override
  protected void read(StoreReader store) {
    SessionEvidence session = SessionEvidence.read(store, chosen.toRead(store));
    Judge with = judge.judge(data.settings(), store, session);
    ProgressReport report =
        new ProgressReport(
            session.log().session().name(),
            session.stages(),
            with,
            progression(session.stages(), with));
    tell(json, () -> report.object(), () -> report.print(out(), data, chosen.typed()));
  }

  /** Of the stages that have cuts enough to be compared; empty with fewer than two of them. */
  public static Optional<Progression> progression(List<StageEvidence> stages, Judge judge) {
    List<Readings> comparable = comparable(stages);
    return comparable.size() < 2
        ? Optional.empty()
        : Optional.of(Progression.of(comparable, judge));
  }

  private static List<Readings> comparable(List<StageEvidence> stages) {
    List<Readings> comparable = new ArrayList<>();
    for (StageEvidence stage : stages) {
      stage.readings().filter(r -> r.count() >= LEAST_CUTS).ifPresent(comparable::add);
    }
    return comparable;
  }
}
