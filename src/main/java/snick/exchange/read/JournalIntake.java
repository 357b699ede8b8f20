package snick.exchange.read;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import snick.exchange.derive.StatedCut;
import snick.exchange.json.JournalHistory;
import snick.exchange.json.JournalJson;
import snick.journal.Blade;
import snick.journal.CutPlacement;
import snick.journal.FilamentLot;
import snick.journal.Session;
import snick.journal.Session.Equipment;
import snick.journal.SetAside;
import snick.journal.Stage;
import snick.journal.StageEntry;
import snick.phrase.NotAccepted;
import snick.store.Intake;
import snick.store.record.Noted;
import snick.store.record.Version;

/**
 * Takes the journal of a package in: blades, lots and sessions at once, the place of each cut as it
 * comes, entries at the end, when it is known which cuts they speak of.
 */
public final class JournalIntake {
  private final JournalJson.Journal journal;
  private final String prefix;
  private final Intake intake;
  private final List<Place> places = new ArrayList<>();

  /** Session of each cut whose place was corrected, by number of the cut. */
  private final Map<Integer, Place> corrected = new HashMap<>();

  /** Id in the store of each of these, by number. */
  private final Map<Integer, Long> ids = new HashMap<>();

  /** A session, its stages, and whether it is new in the store. */
  private record Place(int number, Session session, List<Stage> stages, boolean isNew) {}

  public JournalIntake(JournalJson.Journal journal, String prefix, Intake intake) {
    this.journal = journal;
    this.prefix = prefix;
    this.intake = intake;
    journal.blades().forEach(b -> intake.blade(each(b, this::renamed)));
    journal.lots().forEach(l -> intake.lot(each(l, this::renamed)));
    journal.sessions().forEach(this::session);
  }

  private static <T> List<Version<T>> each(List<Version<T>> versions, UnaryOperator<T> change) {
    return versions.stream()
        .map(v -> new Version<>(v.recorded(), v.why(), change.apply(v.content())))
        .toList();
  }

  private Blade renamed(Blade b) {
    return b.withLabel(prefix + b.label());
  }

  private FilamentLot renamed(FilamentLot lot) {
    return new FilamentLot(prefix + lot.lot(), lot.material(), lot.figures());
  }

  private Session renamed(Session s) {
    return new Session(
        prefix + s.name(),
        prefix + s.blade(),
        new Equipment(
            s.equipment().filamentLot().map(lot -> prefix + lot),
            s.equipment().rig(),
            s.equipment().calibration()),
        s.roomCelsius(),
        s.operator(),
        s.opened(),
        s.closed());
  }

  private void session(JournalJson.Log log) {
    List<Stage> stages = stages(log);
    boolean isNew = intake.session(each(log.versions(), this::renamed), stages);
    Place place = new Place(places.size() + 1, renamed(log.session()), stages, isNew);
    places.add(place);
    for (Noted noted : log.history()) {
      if (noted.version().content() instanceof CutPlacement p) {
        Place before = corrected.putIfAbsent(Math.toIntExact(p.cut()), place);
        if (before != null && before.number() != place.number()) {
          throw new NotAccepted("refused.cut_in_two_sessions", "cut", p.cut());
        }
      }
    }
  }

  private static List<Stage> stages(JournalJson.Log log) {
    List<Stage> stages = new ArrayList<>();
    log.stages().forEach(name -> stages.add(new Stage(stages.size() + 1, name)));
    long different = stages.stream().map(s -> s.name().toLowerCase(Locale.ROOT)).distinct().count();
    if (different != stages.size()) {
      throw new NotAccepted("refused.stage_twice", "session", log.session().name());
    }
    return stages;
  }

  /** Places a cut that has this id in the store, and sets it aside if it is. */
  public void place(StatedCut cut, long id) {
    Place later = corrected.get(cut.number());
    if (later != null) {
      ids.put(cut.number(), id);
    }
    if (later == null || !later.isNew()) {
      cut.place().ifPresent(at -> place(cut, id, at));
    } else if (cut.place().isPresent() && cut.place().get().session() != later.number()) {
      throw new NotAccepted("refused.cut_in_two_sessions", "cut", cut.number());
    }
    if (intake.isNew(id)) {
      acts(cut).forEach(act -> intake.setAside(act(act, cut, id)));
    }
  }

  private void place(StatedCut cut, long id, StatedCut.StatedPlace at) {
    Place place = places.get(at.session() - 1);
    intake.place(
        id,
        place.session(),
        place.stages().get(at.stage() - 1),
        during(place.session(), cut.cut().occurredAt()),
        at.placeMm());
  }

  private List<JournalJson.Act> acts(StatedCut cut) {
    List<JournalJson.Act> acts = journal.acts().getOrDefault(cut.number(), List.of());
    boolean aside = !acts.isEmpty() && !acts.get(acts.size() - 1).countsAgain();
    if (acts.isEmpty() && cut.setAside()) {
      return List.of(new JournalJson.Act(Optional.empty(), Optional.empty(), false));
    }
    if (aside != cut.setAside()) {
      throw new NotAccepted("refused.set_aside_in_one", "cut", cut.number());
    }
    return acts;
  }

  private static SetAside act(JournalJson.Act act, StatedCut cut, long id) {
    return new SetAside(
        act.at().orElse(cut.cut().occurredAt()),
        id,
        act.reason().orElse(JournalHistory.NO_REASON),
        act.countsAgain());
  }

  /** Takes in what was noted in sessions that are new. */
  public void finish() {
    for (int i = 0; i < places.size(); i++) {
      Place place = places.get(i);
      if (place.isNew()) {
        List<Noted> noted = noted(journal.sessions().get(i));
        noted.forEach(n -> requireDuring(place.session(), n.version().content()));
        intake.entries(place.session(), place.stages(), noted);
      }
    }
  }

  private List<Noted> noted(JournalJson.Log log) {
    if (!log.history().isEmpty()) {
      return log.history().stream().map(this::withId).toList();
    }
    List<Noted> noted = new ArrayList<>();
    log.steps().forEach(step -> noted.add(Noted.of(step)));
    log.inspections().forEach(look -> noted.add(Noted.of(look)));
    return noted;
  }

  private Noted withId(Noted noted) {
    if (!(noted.version().content() instanceof CutPlacement p)) {
      return noted;
    }
    Long id = ids.get(Math.toIntExact(p.cut()));
    if (id == null) {
      throw new NotAccepted("refused.placed_cut_not_here", "cut", p.cut());
    }
    if (!intake.isNew(id)) {
      throw new NotAccepted("refused.placed_cut_here", "cut", p.cut());
    }
    CutPlacement placement = new CutPlacement(p.at(), p.stage(), id, p.placeMm());
    Version<StageEntry> version =
        new Version<>(noted.version().recorded(), noted.version().why(), placement);
    return new Noted(version, noted.corrects());
  }

  private static void requireDuring(Session session, StageEntry entry) {
    boolean placement = entry instanceof CutPlacement;
    if (!placement && !during(session, entry.at()).equals(entry.at())) {
      throw new NotAccepted(
          "refused.entry_outside_session", "at", entry.at(), "session", session.name());
    }
  }

  /** The time nearest to {@code at} within the session. */
  private static Instant during(Session session, Instant at) {
    if (at.isBefore(session.opened())) {
      return session.opened();
    }
    return session.closed().filter(at::isAfter).orElse(at);
  }
}
