package snick.cli.exchange;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Option;
import snick.cli.terminal.Refusal;
import snick.journal.SessionLog;
import snick.store.StoreReader;
import snick.store.record.CutSelection;

/** Which stored cuts are meant; all of them if nothing is said. */
final class CutChoice {
  @Option(
      names = "--cut",
      paramLabel = "ID",
      split = ",",
      description = "Comma-separated cut ids: only these cuts.")
  private List<Long> ids = List.of();

  @Option(names = "--session", paramLabel = "SESSION", description = "Only those of one session.")
  private Optional<String> session;

  @Option(names = "--stage", paramLabel = "STAGE", description = "Only one stage of the session.")
  private Optional<String> stage;

  @Option(names = "--blade", paramLabel = "LABEL", description = "Only sessions with one blade.")
  private Optional<String> blade;

  @Option(
      names = "--from",
      paramLabel = "TIME",
      description = "Only those at or after a day (2026-05-04, local) or UTC time.")
  private Optional<String> from;

  @Option(
      names = "--before",
      paramLabel = "TIME",
      description = "Only those before a day or UTC time.")
  private Optional<String> before;

  List<Long> ids() {
    return ids;
  }

  CutSelection selection(StoreReader store) {
    CutSelection selection = CutSelection.all();
    if (stage.isPresent() && session.isEmpty()) {
      throw Refusal.usage("--stage needs --session: a stage belongs to one");
    }
    if (session.isPresent()) {
      String name = store.journal().sessionMeant(session.get());
      SessionLog log = store.journal().log(name).orElseThrow();
      selection =
          stage.isPresent()
              ? selection.inStage(name, log.stage(stage.get()))
              : selection.inSession(name);
    }
    if (blade.isPresent()) {
      selection = selection.ofBlade(store.journal().bladeMeant(blade.get()).label());
    }
    if (from.isPresent()) {
      selection = selection.from(time("--from", from.get()));
    }
    return before.isPresent() ? selection.before(time("--before", before.get())) : selection;
  }

  private static Instant time(String option, String text) {
    try {
      return text.contains("T")
          ? Instant.parse(text)
          : LocalDate.parse(text).atStartOfDay(ZoneId.systemDefault()).toInstant();
    } catch (DateTimeException e) {
      throw Refusal.usage(
          option + " " + text + " is neither a day (2026-05-04) nor a UTC time (…T12:00:00Z)");
    }
  }
}
