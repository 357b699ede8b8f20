package snick.journal;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import snick.journal.name.Field;
import snick.journal.name.NearNames;
import snick.journal.name.SlipOfName;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/**
 * A session with all that was noted in it. Immutable: each act returns a new log or throws {@link
 * NotAccepted}, and then nothing has changed. Nothing is taken in once the session is closed, but
 * corrections and cuts set aside are: they judge the record, they do not add to it.
 *
 * @param session the session
 * @param stages in order, numbered from 1
 * @param entries steps, inspections and cut placements, with their corrections
 * @param setAside cuts that no longer count, or count again; the latest act on each stands
 */
public record SessionLog(
    Session session, List<Stage> stages, Ledger<StageEntry> entries, List<SetAside> setAside) {
  public SessionLog {
    stages = List.copyOf(stages);
    setAside = List.copyOf(setAside);
    check(stages);
  }

  /** The stage that runs: the last one begun; empty before the first. */
  public Optional<Stage> runningStage() {
    return stages.isEmpty() ? Optional.empty() : Optional.of(stages.get(stages.size() - 1));
  }

  /**
   * The stage called {@code name}, whatever its case, else the one of this number, else the only
   * one whose name begins so.
   *
   * @throws NotAccepted if there is none; the message lists those there are
   */
  public Stage stage(String name) {
    return called(name)
        .or(() -> numbered(name.strip()))
        .or(() -> onlyBeginning(name.strip()))
        .orElseThrow(() -> unknownStage(name));
  }

  private Optional<Stage> called(String name) {
    return stages.stream().filter(s -> s.isCalled(name)).findFirst();
  }

  private Optional<Stage> numbered(String number) {
    return stages.stream().filter(s -> number.equals(Integer.toString(s.order()))).findFirst();
  }

  private Optional<Stage> onlyBeginning(String begin) {
    List<Stage> found =
        stages.stream()
            .filter(s -> s.name().regionMatches(true, 0, begin, 0, begin.length()))
            .toList();
    return found.size() == 1 && !begin.isEmpty() ? Optional.of(found.get(0)) : Optional.empty();
  }

  /** Begins the next stage. */
  public SessionLog begin(String stageName) {
    session.requireOpen(Phrase.of("cannot.begin_a_stage"));
    List<Stage> longer = new ArrayList<>(stages);
    longer.add(new Stage(stages.size() + 1, stageName));
    return new SessionLog(session, longer, entries, setAside);
  }

  /**
   * Asks back if {@code stageName}, a stage to begin, is likely one that is there, misspelt.
   *
   * @throws SlipOfName if so
   */
  public void requireNoSlip(String stageName) {
    if (called(stageName).isEmpty()) {
      SlipOfName.throwIfAny("stage", stageName, NearNames.slipsOf(stageName, stageNames()));
    }
  }

  /**
   * Gives {@code stage} another name.
   *
   * @throws NotAccepted if another stage has it
   */
  public SessionLog rename(Stage stage, String newName) {
    List<Stage> renamed = new ArrayList<>(stages);
    renamed.set(stage.order() - 1, new Stage(stage.order(), newName));
    return new SessionLog(session, renamed, entries, setAside);
  }

  /**
   * The stages once what is in {@code from} belongs to {@code into}.
   *
   * @throws NotAccepted if they are one
   */
  public List<Stage> merge(Stage from, Stage into) {
    if (from.equals(into)) {
      throw new NotAccepted("refused.stage_into_itself", "stage", from.name());
    }
    List<Stage> left = new ArrayList<>();
    stages.stream()
        .filter(stage -> !stage.equals(from))
        .forEach(stage -> left.add(new Stage(left.size() + 1, stage.name())));
    return List.copyOf(left);
  }

  /** Takes in a step, an inspection or a cut placement, or a correction of one. */
  public SessionLog add(Entry<StageEntry> entry) {
    SessionEntries taken = new SessionEntries(this);
    taken.requireFitting(entry);
    Ledger<StageEntry> longer = entries.with(entry);
    taken.hold(entry);
    return new SessionLog(session, stages, longer, setAside);
  }

  /** Sets a cut aside; it must be placed in this session. */
  public SessionLog setAside(SetAside act) {
    boolean known = placements().stream().anyMatch(p -> p.cut() == act.cut());
    if (!known) {
      throw new NotAccepted(
          "refused.cut_not_in_session", "cut", act.cut(), "session", session.name());
    }
    List<SetAside> longer = new ArrayList<>(setAside);
    longer.add(act);
    return new SessionLog(session, stages, entries, longer);
  }

  /** Ends the session at {@code at}. */
  public SessionLog close(Instant at) {
    return new SessionLog(session.closedAt(at), stages, entries, setAside);
  }

  /** Inspections that stand, in the order noted. */
  public List<Inspection> inspections() {
    return contents(Inspection.class);
  }

  /** Inspections that stand in {@code stage}. */
  public List<Inspection> inspections(Stage stage) {
    return in(stage, inspections());
  }

  /** Steps that stand and led to {@code stage}. */
  public List<SharpeningStep> steps(Stage stage) {
    return in(stage, contents(SharpeningStep.class));
  }

  /** Cut placements that stand, set aside or not. */
  public List<CutPlacement> placements() {
    return contents(CutPlacement.class);
  }

  /** The standing entry that places a cut here; empty if none does. */
  public Optional<Entry<StageEntry>> placement(long cutId) {
    return entries.standing().stream()
        .filter(e -> e.content() instanceof CutPlacement p && p.cut() == cutId)
        .findFirst();
  }

  /** Cut placements that stand in {@code stage} and count. */
  public List<CutPlacement> countingPlacements(Stage stage) {
    Map<Long, String> aside = reasonsByCut();
    return in(stage, placements()).stream().filter(p -> !aside.containsKey(p.cut())).toList();
  }

  /** Reason by cut, for each cut set aside. */
  public Map<Long, String> reasonsByCut() {
    Map<Long, String> reasons = new LinkedHashMap<>();
    for (SetAside act : setAside) {
      if (act.countsAgain()) {
        reasons.remove(act.cut());
      } else {
        reasons.put(act.cut(), act.reason());
      }
    }
    return reasons;
  }

  /** Where to cut next in {@code stage}, so that no spot is cut twice in it. */
  public NextPlace nextPlace(Stage stage, EdgeSpan span) {
    return span.next(
        in(stage, placements()).stream().flatMap(p -> p.placeMm().stream().boxed()).toList());
  }

  private <E extends StageEntry> List<E> contents(Class<E> kind) {
    return entries.contents().stream().filter(kind::isInstance).map(kind::cast).toList();
  }

  private static <E extends StageEntry> List<E> in(Stage stage, List<E> entries) {
    return entries.stream().filter(e -> stage.isCalled(e.stage())).toList();
  }

  private static void check(List<Stage> stages) {
    Set<String> names = new TreeSet<>(String.CASE_INSENSITIVE_ORDER);
    for (int i = 0; i < stages.size(); i++) {
      Stage stage = stages.get(i);
      if (stage.order() != i + 1) {
        throw new NotAccepted(
            Phrase.of("refused.stage_order")
                .with("stage", stage.name())
                .with("order", stage.order())
                .with("expected", i + 1));
      }
      if (!names.add(stage.name())) {
        throw new NotAccepted("refused.stage_exists", "stage", stage.name());
      }
    }
  }

  private List<String> stageNames() {
    return stages.stream().map(Stage::name).toList();
  }

  NotAccepted unknownStage(String name) {
    return new NotAccepted(
        Phrase.of(stages.isEmpty() ? "refused.no_stage_in_session" : "refused.stage_not_in_session")
            .with("stage", Field.shown(name))
            .with("session", session.name())
            .with("known", List.<Object>copyOf(stageNames()))
            .with("near", NearNames.question(NearNames.of(name, stageNames()))));
  }
}
