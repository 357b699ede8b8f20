package snick.exchange.write;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import snick.exchange.json.CalibrationJson;
import snick.exchange.json.JournalJson;
import snick.exchange.json.RigJson;
import snick.exchange.table.PackagedCut;
import snick.exchange.table.PackagedResult;
import snick.exchange.write.ExportChoice.Wish;
import snick.force.budget.Calibration;
import snick.journal.Session;
import snick.store.StoreReader;
import snick.store.record.Credit;
import snick.store.record.CutForce;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.store.record.EarlierResult;
import snick.store.record.StoredCalibration;
import snick.store.record.StoredRecording;

/**
 * The order and the numbers that things have in a package. They follow from what is in it, not from
 * the store it comes from: cuts by time, recordings and sessions by their start, calibrations by
 * when they were made. Takes about a hundred bytes a cut.
 */
final class Numbering {
  private static final Comparator<Key> BY_TIME =
      Comparator.comparing(Key::occurredAt)
          .thenComparing(key -> key.recording().recording().startedAt())
          .thenComparing(key -> key.recording().recording().deviceId())
          .thenComparing(Key::number);

  private final StoreReader store;

  /** Holds every cut that was derived again. */
  private final Set<Long> derivedAgain;

  private final List<Key> cuts = new ArrayList<>();
  private final Map<Long, Integer> numbers = new HashMap<>();
  private final Map<Long, StoredRecording> recordingsById = new HashMap<>();
  private final Map<Long, Integer> recordings = new LinkedHashMap<>();
  private final Map<String, Integer> calibrations = new LinkedHashMap<>();
  private final Map<String, Integer> sessions = new LinkedHashMap<>();
  private final TreeSet<String> calibrationsUsed = new TreeSet<>();
  private final TreeSet<String> sessionsUsed = new TreeSet<>();

  /** Whose work each cut of others is. */
  private final Map<Long, Credit.Of> credits;

  private final boolean ownOnly;
  private final boolean photos;
  private final Attribution attribution;

  private record Key(Instant occurredAt, StoredRecording recording, int number, long id) {}

  Numbering(StoreReader store, ExportChoice choice) {
    this.store = store;
    ownOnly = choice.has(Wish.OWN_ONLY);
    photos = choice.has(Wish.PHOTOS);
    credits = store.creditsOfCuts();
    Set<Long> only = Set.copyOf(choice.only());
    derivedAgain = only.isEmpty() ? store.derivedAgain() : only;
    choice.cuts().session().ifPresent(sessionsUsed::add);
    if (!only.isEmpty() && choice.cuts().equals(CutSelection.all())) {
      only.forEach(id -> store.summary(id).ifPresent(this::note));
    } else {
      store.forEachSummary(choice.cuts(), cut -> noteIfChosen(cut, only));
    }
    cuts.sort(BY_TIME);
    numberRecordings();
    numberCalibrations();
    numberSessions();
    attribution = attribution(choice);
  }

  private Attribution attribution(ExportChoice choice) {
    List<Optional<Credit.Of>> all = new ArrayList<>();
    cuts.forEach(key -> all.add(credit(key.id())));
    sessionsUsed.forEach(name -> all.add(store.creditOfSession(name)));
    return Attribution.of(
        choice,
        all.stream().flatMap(Optional::stream).distinct().toList(),
        all.stream().anyMatch(Optional::isEmpty));
  }

  /** Whose work a cut of the store is; empty if it is one's own. */
  Optional<Credit.Of> credit(long cutId) {
    return Optional.ofNullable(credits.get(cutId));
  }

  /** Whose work it all is. */
  Attribution attribution() {
    return attribution;
  }

  /** Number of the source whose work a cut of the store is; empty if it is of none. */
  OptionalInt source(long cutId) {
    return attribution.source(credit(cutId));
  }

  private void noteIfChosen(CutSummary cut, Set<Long> only) {
    if (only.isEmpty() || only.contains(cut.id())) {
      note(cut);
    }
  }

  private void note(CutSummary cut) {
    if (ownOnly && credits.containsKey(cut.id())) {
      return;
    }
    StoredRecording recording =
        recordingsById.computeIfAbsent(cut.recordingId(), id -> store.recording(id).orElseThrow());
    cuts.add(new Key(cut.occurredAt(), recording, cut.number(), cut.id()));
    cut.force().ifPresent(f -> calibrationsUsed.add(f.calibrationId()));
    cut.place().ifPresent(place -> sessionsUsed.add(place.session()));
    earlier(cut.id()).stream()
        .flatMap(e -> e.force().stream())
        .forEach(f -> calibrationsUsed.add(f.force().calibrationId()));
  }

  /** What was derived from a cut of the store before what stands; few cuts are asked one by one. */
  List<EarlierResult> earlier(long cutId) {
    return derivedAgain.contains(cutId) ? store.earlier(cutId) : List.of();
  }

  /** The row of a cut. */
  PackagedCut row(int number, CutSummary cut) {
    return new PackagedCut(
        number,
        recording(cut.recordingId()),
        cut.place().stream().mapToInt(p -> session(p.session())).findFirst(),
        calibration(cut.force()),
        source(cut.id()),
        cut);
  }

  /** A row of what was derived from a cut before what stands. */
  PackagedResult row(int number, int row, EarlierResult earlier) {
    return new PackagedResult(
        number, row, calibration(earlier.force().map(f -> f.force())), earlier);
  }

  private OptionalInt calibration(Optional<CutForce> force) {
    return force.stream().mapToInt(f -> calibrations.get(f.calibrationId())).findFirst();
  }

  private void numberRecordings() {
    recordingsById.values().stream()
        .sorted(
            Comparator.<StoredRecording, Instant>comparing(r -> r.recording().startedAt())
                .thenComparing(r -> r.recording().deviceId()))
        .forEach(r -> recordings.put(r.id(), recordings.size() + 1));
  }

  private void numberCalibrations() {
    calibrationsUsed.stream()
        .map(id -> store.calibration(id).orElseThrow().calibration())
        .sorted(
            Comparator.<Calibration, Instant>comparing(c -> c.made()).thenComparing(c -> c.id()))
        .forEach(c -> calibrations.put(c.id(), calibrations.size() + 1));
  }

  private void numberSessions() {
    sessionsUsed.stream()
        .flatMap(name -> store.journal().session(name).stream())
        .sorted(Comparator.comparing(Session::opened).thenComparing(Session::name))
        .forEach(s -> sessions.put(s.name(), sessions.size() + 1));
  }

  int cuts() {
    return cuts.size();
  }

  /** Id in the store of the cut that has {@code number} in the package. */
  long cutId(int number) {
    return cuts.get(number - 1).id();
  }

  /** Number of the recording of the cut that has {@code number}. */
  int recordingOf(int number) {
    return recording(cuts.get(number - 1).recording().id());
  }

  /** When the cut that has {@code number} occurred. */
  Instant occurredAt(int number) {
    return cuts.get(number - 1).occurredAt();
  }

  int recording(long recordingId) {
    return recordings.get(recordingId);
  }

  int session(String name) {
    return sessions.get(name);
  }

  List<RigJson.Item> recordingItems() {
    return recordings.keySet().stream()
        .map(recordingsById::get)
        .map(r -> new RigJson.Item(r.recording(), r.clock()))
        .toList();
  }

  List<CalibrationJson.Item> calibrationItems() {
    return calibrations.keySet().stream()
        .map(id -> store.calibration(id).orElseThrow())
        .map(
            (StoredCalibration c) ->
                new CalibrationJson.Item(
                    c.calibration(), c.document(), store.verificationsOf(c.calibration().id())))
        .toList();
  }

  JournalJson.Journal journal() {
    return new NumberedJournal(store, this, photos).of(List.copyOf(sessions.keySet()));
  }

  /** How each cut that was ever set aside was, by number. */
  Map<Integer, List<JournalJson.Act>> acts() {
    Set<Long> ever = store.everSetAside();
    Map<Integer, List<JournalJson.Act>> acts = new TreeMap<>();
    for (int i = 0; i < cuts.size(); i++) {
      if (ever.contains(cuts.get(i).id())) {
        acts.put(
            i + 1,
            store.setAsideActs(cuts.get(i).id()).stream()
                .map(
                    a ->
                        new JournalJson.Act(
                            Optional.of(a.at()), Optional.of(a.reason()), a.countsAgain()))
                .toList());
      }
    }
    return acts;
  }

  /** The number in the package of a cut of the store; empty if it is not in it. */
  OptionalInt number(long cutId) {
    if (numbers.isEmpty()) {
      for (int i = 0; i < cuts.size(); i++) {
        numbers.put(cuts.get(i).id(), i + 1);
      }
    }
    return numbers.containsKey(cutId) ? OptionalInt.of(numbers.get(cutId)) : OptionalInt.empty();
  }
}
