package snick.cli.journal;

import java.util.Optional;
import picocli.CommandLine.Option;
import snick.cli.option.OpenedJournal;
import snick.cli.terminal.Refusal;
import snick.journal.Entry;
import snick.journal.SessionLog;
import snick.journal.StageEntry;

/** Whether what is noted takes the place of an earlier entry. */
final class CorrectionChoice {
  @Option(
      names = "--correct",
      paramLabel = "ENTRY",
      description = "In place of this entry, which is kept; numbers: snick session show.")
  private Optional<Long> entry;

  @Option(names = "--why", paramLabel = "TEXT", description = "Reason, with --correct.")
  private Optional<String> why;

  /** The entry that is corrected; empty if a new one is noted. */
  <E extends StageEntry> Optional<E> earlier(SessionLog log, Class<E> kind) {
    return entry.map(id -> find(log, id, kind));
  }

  private static <E extends StageEntry> E find(SessionLog log, long id, Class<E> kind) {
    StageEntry content =
        log.entries().all().stream()
            .filter(e -> e.id() == id)
            .map(Entry::content)
            .findFirst()
            .orElseThrow(
                () ->
                    Refusal.badInput(
                        "entry %s is not in session '%s'; numbers: snick session show",
                        id, log.session().name()));
    if (!kind.isInstance(content)) {
      throw Refusal.badInput("entry " + id + " is of another kind: " + JournalText.entry(content));
    }
    return kind.cast(content);
  }

  /** Notes {@code content}, new or as a correction. */
  Entry<StageEntry> note(OpenedJournal journal, SessionLog log, StageEntry content) {
    String session = log.session().name();
    if (entry.isEmpty() && why.isPresent()) {
      throw Refusal.usage("--why goes with --correct ENTRY");
    }
    return entry.isPresent()
        ? journal.writer().correct(session, entry.get(), content, reason())
        : journal.writer().add(session, content);
  }

  private String reason() {
    return why.orElseThrow(() -> Refusal.usage("--correct needs --why TEXT: the reason"));
  }
}
