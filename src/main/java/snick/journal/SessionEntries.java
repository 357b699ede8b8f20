package snick.journal;

import java.time.Instant;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/**
 * Takes entries into a session, one after the other, by the rules of a session: each in a time that
 * does not grow with how many there are. One thread.
 */
public final class SessionEntries {
  private final SessionLog log;
  private final Map<String, Stage> stages = new TreeMap<>(String.CASE_INSENSITIVE_ORDER);
  private final Map<Long, Entry<StageEntry>> standing = new HashMap<>();
  private final Map<Long, Class<? extends StageEntry>> kinds = new HashMap<>();
  private final Set<Long> placedCuts = new HashSet<>();

  /** What {@code log} holds already is not checked again. */
  public SessionEntries(SessionLog log) {
    this.log = log;
    log.stages().forEach(stage -> stages.put(stage.name(), stage));
    log.entries().all().forEach(this::note);
  }

  /**
   * Takes in a step, an inspection, a cut placement or a correction of one, whose id is new.
   *
   * @return the stage it belongs to
   * @throws NotAccepted if it does not fit; then nothing has changed, unless a cut is placed twice
   */
  public Stage take(Entry<StageEntry> entry) {
    Stage stage = requireFitting(entry);
    hold(entry);
    return stage;
  }

  Stage requireFitting(Entry<StageEntry> entry) {
    StageEntry content = entry.content();
    Stage stage = stage(content.stage());
    if (content instanceof Withdrawn) {
      requireWithdrawable(entry);
    } else {
      entry.corrects().ifPresent(earlier -> requireSameKind(earlier, content));
    }
    if (entry.corrects().isEmpty() && entry.why().isBlank()) {
      log.session().requireOpen(Phrase.of("cannot.add_to_stage", "stage", content.stage()));
    }
    requireDuring(content.at());
    return stage;
  }

  /** Holds an entry; a cut that is placed twice is refused. */
  void hold(Entry<StageEntry> entry) {
    if (!note(entry) && entry.content() instanceof CutPlacement placement) {
      throw new NotAccepted(
          "refused.cut_is_in_session", "cut", placement.cut(), "session", log.session().name());
    }
  }

  /** Notes an entry; false if it places a cut that has its place. */
  private boolean note(Entry<StageEntry> entry) {
    entry.corrects().ifPresent(this::replaced);
    standing.put(entry.id(), entry);
    kinds.put(entry.id(), entry.content().getClass());
    return !(entry.content() instanceof CutPlacement placement) || placedCuts.add(placement.cut());
  }

  private void replaced(long earlier) {
    Entry<StageEntry> gone = standing.remove(earlier);
    if (gone != null && gone.content() instanceof CutPlacement placement) {
      placedCuts.remove(placement.cut());
    }
  }

  private Stage stage(String name) {
    Stage stage = stages.get(name.strip());
    if (stage == null) {
      throw log.unknownStage(name);
    }
    return stage;
  }

  private static void requireWithdrawable(Entry<StageEntry> withdrawal) {
    if (withdrawal.corrects().isEmpty()) {
      throw new NotAccepted("refused.withdrawal_of_nothing");
    }
  }

  private void requireSameKind(long earlier, StageEntry content) {
    Class<? extends StageEntry> kind = kinds.get(earlier);
    if (kind != null && kind != content.getClass()) {
      throw new NotAccepted("refused.another_kind", "entry", earlier);
    }
  }

  private void requireDuring(Instant at) {
    Session session = log.session();
    session
        .closed()
        .filter(at::isAfter)
        .ifPresent(
            closed -> {
              throw new NotAccepted(
                  "refused.after_close", "at", at, "session", session.name(), "closed", closed);
            });
    if (at.isBefore(session.opened())) {
      throw new NotAccepted(
          Phrase.of("refused.before_opening")
              .with("at", at)
              .with("session", session.name())
              .with("opened", session.opened()));
    }
  }
}
