package snick.exchange.write;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import snick.exchange.json.JournalHistory;
import snick.exchange.json.JournalJson;
import snick.journal.CutPlacement;
import snick.journal.Entry;
import snick.journal.Inspection;
import snick.journal.Session;
import snick.journal.SessionLog;
import snick.journal.SharpeningStep;
import snick.journal.StageEntry;
import snick.journal.Withdrawn;
import snick.store.JournalReader;
import snick.store.StoreReader;
import snick.store.record.Noted;
import snick.store.record.Version;

/** The journal of a package, drawn from a store; cuts in it have their numbers in the package. */
final class NumberedJournal {
  private final JournalReader journal;
  private final Numbering numbering;
  private final boolean photos;

  NumberedJournal(StoreReader store, Numbering numbering, boolean photos) {
    this.journal = store.journal();
    this.numbering = numbering;
    this.photos = photos;
  }

  private Inspection told(Inspection look) {
    return photos ? look : look.with(Optional.empty());
  }

  /** The journal of sessions, with the blades and lots that any version of them names. */
  JournalJson.Journal of(List<String> sessions) {
    List<JournalJson.Log> logs = sessions.stream().map(this::log).toList();
    TreeSet<String> blades = new TreeSet<>();
    TreeSet<String> lots = new TreeSet<>();
    for (JournalJson.Log log : logs) {
      for (Version<Session> version : log.versions()) {
        blades.add(version.content().blade());
        version.content().equipment().filamentLot().ifPresent(lots::add);
      }
    }
    return new JournalJson.Journal(
        blades.stream().map(b -> JournalHistory.versions(journal.bladeHistory(b))).toList(),
        lots.stream().map(l -> JournalHistory.versions(journal.filamentLotHistory(l))).toList(),
        logs,
        new TreeMap<>(numbering.acts()));
  }

  private JournalJson.Log log(String name) {
    SessionLog log = journal.log(name).orElseThrow();
    List<SharpeningStep> steps =
        log.stages().stream().flatMap(stage -> log.steps(stage).stream()).toList();
    List<Inspection> looks =
        log.stages().stream()
            .flatMap(stage -> log.inspections(stage).stream())
            .map(this::told)
            .toList();
    return new JournalJson.Log(
        JournalHistory.versions(journal.sessionHistory(name)),
        log.stages().stream().map(s -> s.name()).toList(),
        steps,
        looks,
        history(log));
  }

  /**
   * Every entry but places that were never corrected and those of cuts that were moved to another
   * session, if any was corrected.
   */
  private List<Noted> history(SessionLog log) {
    Map<Long, Integer> places = new HashMap<>();
    List<Noted> noted = new ArrayList<>();
    Set<Long> moved = moved(log);
    for (Entry<StageEntry> entry : log.entries().all()) {
      if (!moved.contains(entry.id()) && belongs(entry, log)) {
        noted.add(noted(entry, places));
        places.put(entry.id(), noted.size());
      }
    }
    boolean corrected = noted.stream().anyMatch(n -> n.corrects().isPresent());
    return corrected ? noted : List.of();
  }

  /** The places of cuts that were withdrawn in the end, and their withdrawals. */
  private static Set<Long> moved(SessionLog log) {
    Set<Long> placed = log.placements().stream().map(CutPlacement::cut).collect(Collectors.toSet());
    Set<Long> moved = new HashSet<>();
    for (Entry<StageEntry> entry : log.entries().all()) {
      boolean gone = entry.content() instanceof CutPlacement p && !placed.contains(p.cut());
      boolean goneBefore =
          entry.corrects().isPresent() && moved.contains(entry.corrects().getAsLong());
      if (gone || (goneBefore && entry.content() instanceof Withdrawn)) {
        moved.add(entry.id());
      }
    }
    return moved;
  }

  private boolean belongs(Entry<StageEntry> entry, SessionLog log) {
    return !(entry.content() instanceof CutPlacement placement)
        || (numbering.number(placement.cut()).isPresent()
            && (entry.corrects().isPresent()
                || log.entries().correctionOf(entry.id()).isPresent()));
  }

  private Noted noted(Entry<StageEntry> entry, Map<Long, Integer> places) {
    StageEntry content = entry.content();
    if (content instanceof CutPlacement p) {
      content =
          new CutPlacement(p.at(), p.stage(), numbering.number(p.cut()).getAsInt(), p.placeMm());
    }
    if (content instanceof Inspection look) {
      content = told(look);
    }
    OptionalLong corrects = entry.corrects();
    boolean known = corrects.isPresent() && places.containsKey(corrects.getAsLong());
    return new Noted(
        new Version<>(Optional.of(entry.recorded()), known ? entry.why() : "", content),
        known ? OptionalInt.of(places.get(corrects.getAsLong())) : OptionalInt.empty());
  }
}
