package snick.cli.journal;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.NotingCommand;
import snick.cli.option.OpenedJournal;
import snick.cli.option.SessionChoice;
import snick.cli.terminal.PlainText;
import snick.journal.EdgeDirection;
import snick.journal.Entry;
import snick.journal.Pressure;
import snick.journal.SessionLog;
import snick.journal.SharpeningStep;
import snick.journal.SharpeningStep.Grain;
import snick.journal.StageEntry;

/** Notes a sharpening step. */
@Command(
    name = "step",
    description = {
      "Note work on the edge: what made the current stage out of the one before it.",
      "Begin the stage first (snick stage NAME), then note the steps that led to it."
    },
    footerHeading = "%nExamples (invented):%n",
    footer = {
      "  snick step ceramic rod --grit 1200 --direction leading --strokes 5 \\",
      "    --pressure light",
      "  snick step leather strop --micron 1 --direction trailing \\",
      "    --strokes 20 --pressure very-light",
      "  snick step leather strop --strokes 15 --correct 12 --why miscounted",
    })
public final class StepCommand extends NotingCommand {
  @Parameters(
      arity = "1..*",
      paramLabel = "ABRASIVE",
      description = "What you sharpened on, in your own words.")
  private List<String> abrasive;

  @Option(names = "--grit", paramLabel = "N", description = "As printed on the abrasive.")
  private Optional<Integer> grit;

  @Option(names = "--micron", paramLabel = "UM", description = "Grain size, micrometres.")
  private Optional<Double> micron;

  @Option(
      names = "--direction",
      paramLabel = "WORD",
      description = "leading, trailing or alternating: which way the edge goes.")
  private Optional<String> direction;

  @Option(names = "--strokes", paramLabel = "N", description = "Strokes on each side.")
  private Optional<Integer> strokes;

  @Option(
      names = "--pressure",
      paramLabel = "WORD",
      description = "very-light, light, medium or firm.")
  private Optional<String> pressure;

  @Option(names = "--note", paramLabel = "TEXT", description = "Anything else.")
  private Optional<String> note;

  @Mixin private SessionChoice session;
  @Mixin private StageChoice stage;
  @Mixin private CorrectionChoice correction;

  @Override
  protected void note(OpenedJournal journal) {
    SessionLog log = journal.log(session);
    Entry<StageEntry> entry = correction.note(journal, log, step(log));
    println(
        JournalText.head(entry)
            + JournalText.entry(entry.content())
            + "; it led to stage '"
            + PlainText.inert(entry.content().stage())
            + "'");
  }

  private SharpeningStep step(SessionLog log) {
    Optional<SharpeningStep> corrected = correction.earlier(log, SharpeningStep.class);
    Instant at = corrected.map(SharpeningStep::at).orElseGet(OpenedJournal::now);
    OptionalInt unsaidInt = OptionalInt.empty();
    OptionalDouble unsaid = OptionalDouble.empty();
    return new SharpeningStep(
        at,
        stage.ofWork(log, corrected).name(),
        String.join(" ", abrasive),
        new Grain(
            grit.map(OptionalInt::of)
                .orElse(corrected.map(s -> s.grain().grit()).orElse(unsaidInt)),
            micron
                .map(OptionalDouble::of)
                .orElse(corrected.map(s -> s.grain().micron()).orElse(unsaid))),
        direction.map(EdgeDirection::parse).or(() -> corrected.flatMap(SharpeningStep::direction)),
        strokes
            .map(OptionalInt::of)
            .orElse(corrected.map(SharpeningStep::strokesPerSide).orElse(unsaidInt)),
        pressure.map(Pressure::parse).or(() -> corrected.flatMap(SharpeningStep::pressure)),
        note.orElse(corrected.map(SharpeningStep::note).orElse("")));
  }
}
