package snick.cli.journal;

import java.util.Optional;
import picocli.CommandLine.Option;
import snick.cli.terminal.Refusal;
import snick.journal.SessionLog;
import snick.journal.Stage;
import snick.journal.StageEntry;
import snick.phrase.NotAccepted;

/** Which stage is meant: {@code --stage}, else that of what is corrected, else the running one. */
public final class StageChoice {
  @Option(
      names = "--stage",
      paramLabel = "STAGE",
      description =
          "Name or number of the stage, or the beginning of its name (default: the current one).")
  private Optional<String> name;

  /**
   * As {@link #in}, for work on the edge.
   *
   * @throws NotAccepted also if that went unnamed and is the first stage, which has cuts: work
   *     comes after it
   */
  Stage ofWork(SessionLog log, Optional<? extends StageEntry> corrected) {
    Stage stage = in(log, corrected);
    boolean asFound = stage.order() == 1 && !log.countingPlacements(stage).isEmpty();
    if (asFound && name.isEmpty() && corrected.isEmpty()) {
      throw Refusal.badInput(
          "stage '%s' was cut before any work: begin the stage that this work leads to"
              + " first: snick stage NAME; or say where it belongs: --stage STAGE",
          stage.name());
    }
    return stage;
  }

  /**
   * The stage that is meant in {@code log}.
   *
   * @throws NotAccepted if there is no such stage, or none yet
   */
  public Stage in(SessionLog log, Optional<? extends StageEntry> corrected) {
    return name.or(() -> corrected.map(StageEntry::stage))
        .map(log::stage)
        .or(log::runningStage)
        .orElseThrow(
            () ->
                Refusal.badInput(
                    "session '%s' has no stage yet: snick stage 'as found'", log.session().name()));
  }
}
