package snick.cli.verdict;

import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.DataCommand;
import snick.cli.option.JudgeChoice;
import snick.cli.option.OpenedStore;
import snick.cli.option.SessionChoice;
import snick.cli.option.TypedValues;
import snick.cli.terminal.Refusal;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.Comparison;
import snick.verdict.statistic.Readings;

/** Compares two stages, or two groups of typed values. */
@Command(
    name = "compare",
    description = {
      "Compare two stages of a session, or two groups of typed values. Stages cut at the same "
          + "places are compared place by place, whatever the forces are.",
      "Verdict: lower, higher, no difference shown, or equivalent within --margin; "
          + "the difference is second minus first."
    },
    footerHeading = "%nExamples (figures invented):%n",
    footer = {
      "  snick compare --session evening stropped 'stropped again' --planned 8",
      "  snick compare --values 212,198,205,221,209 --values 131,127,138,124,133",
      "  snick compare --values 94,90,97,91 --values 92,95,93,96 --margin 8 --json",
      "  snick compare --session evening 'as found' deburred",
    })
public final class CompareCommand extends DataCommand implements Runnable {
  @Parameters(
      paramLabel = "STAGE",
      arity = "0..2",
      description = "First and second stage of the session.")
  private List<String> stages = List.of();

  @Option(
      names = "--values",
      paramLabel = "GF,GF,...",
      description = "Forces of one group, gf; give it twice: first group, second group.")
  private List<String> values = List.of();

  @Option(
      names = "--unpaired",
      description = "Ignore where the cuts were made; decide this before you look.")
  private boolean unpaired;

  @Mixin private SessionChoice session;
  @Mixin private JudgeChoice judge;

  @Option(names = "--json", description = "As one JSON object, every digit.")
  private boolean json;

  @Override
  public void run() {
    Comparison comparison = comparison();
    tell(
        json,
        () -> ComparisonJson.of(comparison),
        () -> new ComparisonText(comparison).print(out()));
  }

  private Comparison comparison() {
    if (values.size() == 2 && stages.isEmpty()) {
      return judge
          .judge(data.settings())
          .compare(
              TypedValues.parse("first", values.get(0)),
              TypedValues.parse("second", values.get(1)));
    }
    if (values.isEmpty() && stages.size() == 2) {
      return ofStages();
    }
    throw Refusal.usage(
        "name two stages, or give --values twice; given: %s %s and %s of --values",
        stages.size(), stages.size() == 1 ? "stage" : "stages", values.size());
  }

  private Comparison ofStages() {
    try (StoreReader store = OpenedStore.toRead(data)) {
      SessionEvidence evidence = SessionEvidence.read(store, session.toRead(store));
      return judge
          .judge(data.settings(), store, evidence)
          .compare(
              readings(evidence.stage(stages.get(0))), readings(evidence.stage(stages.get(1))));
    }
  }

  private Readings readings(StageEvidence stage) {
    return stage
        .readings()
        .map(r -> unpaired ? r.withoutPlaces() : r)
        .orElseThrow(
            () ->
                Refusal.badInput(
                    "stage '"
                        + stage.stage().name()
                        + "' has no cuts with a force: make at least 2, with a calibration"));
  }
}
