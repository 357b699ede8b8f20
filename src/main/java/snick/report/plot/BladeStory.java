package snick.report.plot;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.journal.Blade;
import snick.journal.FilamentLot;
import snick.journal.Margin;
import snick.journal.Session;
import snick.journal.SharpeningStep;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.store.KeptStudy;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.Comparison;
import snick.verdict.comparison.GroupFigures;
import snick.verdict.comparison.Judge;
import snick.verdict.comparison.RigRepeatability;
import snick.verdict.statistic.Readings;
import snick.verdict.study.StepWorth;

/**
 * How a blade did over its sessions.
 *
 * @param blade the blade as it stands
 * @param visits its sessions, oldest first
 * @param steps what each kind of sharpening was worth on blades of its steel, on this one alone if
 *     its steel is not noted
 */
public record BladeStory(Blade blade, List<Visit> visits, List<StepWorth> steps) {
  /** Sessions that are read for what a step was worth: the newest of the steel. */
  static final int MOST_SESSIONS = 100;

  /**
   * One session.
   *
   * @param number its short number
   * @param session the session as noted
   * @param rigs device ids of the rigs that measured it; of its cuts where none is noted
   * @param first its first stage with cuts enough to compare; empty if there is none
   * @param last its last one
   * @param cuts counting cuts of the session
   * @param changed what is not as in the session before; forces then do not go on
   * @param wear force at its beginning against the end of the session before; empty if something
   *     changed, if it was sharpened before the first cut, or if there are too few cuts
   */
  public record Visit(
      long number,
      Session session,
      List<String> rigs,
      Optional<StageFigures> first,
      Optional<StageFigures> last,
      int cuts,
      List<Phrase> changed,
      Optional<Comparison> wear) {
    public Visit {
      rigs = List.copyOf(rigs);
      changed = List.copyOf(changed);
    }
  }

  /**
   * The force of a stage.
   *
   * @param stage name of the stage
   * @param figures its mean and interval
   */
  public record StageFigures(String stage, GroupFigures figures) {}

  public BladeStory {
    visits = List.copyOf(visits);
    steps = List.copyOf(steps);
  }

  /** The story of {@code blade}; {@code usualMarginGf} holds where it has no margin of its own. */
  public static BladeStory read(StoreReader store, Blade blade, OptionalDouble usualMarginGf) {
    Map<String, SessionEvidence> read = new HashMap<>();
    List<Visit> visits = new ArrayList<>();
    Optional<SessionEvidence> before = Optional.empty();
    for (Session session : store.journal().sessionsOfBlade(blade.label())) {
      SessionEvidence now = SessionEvidence.read(store, session.name());
      read.put(session.name(), now);
      Judge judge =
          Judge.of(
              Margin.of(OptionalDouble.empty(), blade, usualMarginGf),
              study(store, now.measured()));
      visits.add(visit(store, before, now, judge));
      before = last(now).isPresent() ? Optional.of(now) : before;
    }
    return new BladeStory(blade, visits, StepWorth.of(occasions(store, blade, read)));
  }

  /** One that cannot be read, or was made otherwise, tells nothing of the rig. */
  private static Optional<RigRepeatability> study(StoreReader store, Session session) {
    try {
      return KeptStudy.of(store, session);
    } catch (NotAccepted unusable) {
      return Optional.empty();
    }
  }

  private static Visit visit(
      StoreReader store, Optional<SessionEvidence> before, SessionEvidence now, Judge judge) {
    List<Phrase> changed = before.map(b -> changed(store, b, now)).orElse(List.of());
    Session session = now.log().session();
    return new Visit(
        store.journal().sessionNumber(session.name()),
        session,
        now.instruments().rigs(),
        first(now).map(stage -> figures(stage, judge)),
        last(now).map(stage -> figures(stage, judge)),
        now.stages().stream().mapToInt(stage -> stage.cuts().size()).sum(),
        changed,
        changed.isEmpty() ? before.flatMap(b -> wear(b, now, judge)) : Optional.empty());
  }

  private static Optional<StageEvidence> first(SessionEvidence session) {
    return session.stages().stream().filter(stage -> stage.comparable().isPresent()).findFirst();
  }

  private static Optional<StageEvidence> last(SessionEvidence session) {
    return session.stages().stream()
        .filter(stage -> stage.comparable().isPresent())
        .reduce((earlier, later) -> later);
  }

  private static StageFigures figures(StageEvidence stage, Judge judge) {
    Readings readings = stage.comparable().orElseThrow();
    return new StageFigures(stage.stage().name(), GroupFigures.of(readings, judge.rig()));
  }

  private static List<Phrase> changed(
      StoreReader store, SessionEvidence before, SessionEvidence now) {
    List<Phrase> changed = new ArrayList<>();
    if (differ(before.instruments().rigs(), now.instruments().rigs())) {
      changed.add(Phrase.of("changed.rig"));
    }
    Session was = before.log().session();
    Session is = now.log().session();
    if (!was.equipment().filamentLot().equals(is.equipment().filamentLot())) {
      changed.add(lots(lot(store, was), lot(store, is)));
    }
    if (differ(before.instruments().calibrations(), now.instruments().calibrations())) {
      changed.add(Phrase.of("changed.calibration"));
    }
    return changed;
  }

  /** What is not known, as before the first cut, is not said to be another. */
  private static boolean differ(List<String> before, List<String> now) {
    return !before.isEmpty() && !now.isEmpty() && !before.equals(now);
  }

  private static Optional<FilamentLot> lot(StoreReader store, Session session) {
    return session.equipment().filamentLot().flatMap(store.journal()::filamentLot);
  }

  /** Another lot, and what it differs in beside its name where that is known. */
  private static Phrase lots(Optional<FilamentLot> before, Optional<FilamentLot> now) {
    return before
        .flatMap(lot -> now.map(lot::differences))
        .filter(list -> !list.isEmpty())
        .map(list -> Phrase.of("changed.lot_in", "what", list))
        .orElseGet(() -> Phrase.of("changed.lot"));
  }

  private static Optional<Comparison> wear(
      SessionEvidence before, SessionEvidence now, Judge judge) {
    return first(now)
        .filter(stage -> stage.stage().order() == 1 && stage.steps().isEmpty())
        .flatMap(StageEvidence::comparable)
        .flatMap(
            begin ->
                last(before)
                    .flatMap(StageEvidence::comparable)
                    .map(end -> judge.compare(end.withoutPlaces(), begin.withoutPlaces())));
  }

  private static List<StepWorth.Occasion> occasions(
      StoreReader store, Blade blade, Map<String, SessionEvidence> read) {
    List<Session> sessions =
        store.journal().blades().stream()
            .filter(other -> sameSteel(blade, other))
            .flatMap(other -> store.journal().sessionsOfBlade(other.label()).stream())
            .sorted((a, b) -> b.opened().compareTo(a.opened()))
            .limit(MOST_SESSIONS)
            .toList();
    List<StepWorth.Occasion> occasions = new ArrayList<>();
    for (Session session : sessions) {
      List<StageEvidence> stages =
          read.computeIfAbsent(session.name(), name -> SessionEvidence.read(store, name)).stages();
      for (int i = 1; i < stages.size(); i++) {
        occasion(stages.get(i - 1), stages.get(i)).ifPresent(occasions::add);
      }
    }
    return occasions;
  }

  private static boolean sameSteel(Blade blade, Blade other) {
    return other.label().equals(blade.label())
        || (!blade.steel().isEmpty() && other.steel().equalsIgnoreCase(blade.steel()));
  }

  private static Optional<StepWorth.Occasion> occasion(StageEvidence before, StageEvidence after) {
    Optional<Readings> from = before.comparable();
    Optional<Readings> to = after.comparable();
    if (after.steps().isEmpty() || from.isEmpty() || to.isEmpty()) {
      return Optional.empty();
    }
    Phrase steps =
        after.steps().stream()
            .map(BladeStory::told)
            .distinct()
            .reduce((first, then) -> Phrase.of("then", "before", first, "after", then))
            .orElseThrow();
    return Optional.of(new StepWorth.Occasion(steps, to.get().meanGf() - from.get().meanGf()));
  }

  /** What tells one kind of step from another: strokes and pressure do not. */
  private static Phrase told(SharpeningStep step) {
    Object told = step.abrasive();
    if (step.grain().grit().isPresent()) {
      told = Phrase.of("story.grit", "abrasive", told, "n", step.grain().grit().getAsInt());
    }
    if (step.grain().micron().isPresent()) {
      String grain = NotedInWords.plain(step.grain().micron().getAsDouble());
      told = Phrase.of("story.micron", "abrasive", told, "n", grain);
    }
    return Phrase.of("story.step", "abrasive", told);
  }
}
