package snick.cli.journal;

import java.util.Optional;
import picocli.CommandLine.Option;
import snick.journal.NotAccepted;
import snick.journal.SessionLog;
import snick.journal.Stage;
import snick.journal.StageEntry;

/** Which stage is meant: {@code --stage}, else that of what is corrected, else the running one. */
public final class StageChoice {
  @Option(
      names = "--stage",
      paramLabel = "NAME",
      description = "The stage (default: the one that runs).")
  private Optional<String> name;

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
                new NotAccepted(
                    "session '"
                        + log.session().name()
                        + "' has no stage yet: snick stage 'as found'"));
  }
}
