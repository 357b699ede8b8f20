package snick.cli.journal;

import java.util.Optional;
import snick.journal.CutPlacement;
import snick.journal.Entry;
import snick.journal.SessionLog;
import snick.journal.StageEntry;

/** Finds the entry that places a cut. */
final class Placements {
  private Placements() {}

  /** The standing entry that places a cut in the session; empty if none does. */
  static Optional<Entry<StageEntry>> of(SessionLog log, long cutId) {
    return log.entries().standing().stream()
        .filter(e -> e.content() instanceof CutPlacement p && p.cut() == cutId)
        .findFirst();
  }
}
