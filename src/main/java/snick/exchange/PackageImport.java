package snick.exchange;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snick.cut.Trace;
import snick.journal.Blade;
import snick.journal.FilamentLot;
import snick.journal.NotAccepted;
import snick.journal.Session;
import snick.journal.SetAside;
import snick.journal.Stage;
import snick.journal.StageEntry;
import snick.store.Intake;
import snick.store.NewCut;
import snick.store.Origin;
import snick.store.Store;
import snick.store.TraceSpool;
import snick.store.Watch;

/**
 * Takes a package into a store: checked first, without holding up its writer, while the traces are
 * laid aside in the store's own form; then stored in one short transaction. Raw traces, stated
 * results and calibrations keep their origin.
 */
public final class PackageImport {
  private static final String NO_REASON = "(reason not in the package)";

  private final Path path;
  private final Optional<String> prefix;
  private final Watch watch;

  /**
   * What came of it.
   *
   * @param report what the check found
   * @param stored what was stored; empty if the check found differences and that was not accepted
   */
  public record Result(PackageReport report, Optional<Origin.Outcome> stored) {}

  /**
   * An import of a folder or zip file.
   *
   * @param prefix put before the names of sessions, blades and lots, with a slash; empty for none
   */
  public PackageImport(Path path, Optional<String> prefix, Watch watch) {
    this.path = path;
    this.prefix = prefix.map(p -> p + "/");
    this.watch = watch;
  }

  /**
   * Checks the package and stores it.
   *
   * @param despiteDifferences whether to store it also where traces do not bear out what is stated
   * @throws RefusedPackage if it is not what it should be, or contradicts the store; then nothing
   *     was stored
   */
  public Result into(Store store, boolean despiteDifferences) throws IOException {
    try (PackageReading reading = PackageReading.open(path);
        TraceSpool traces = store.spool()) {
      PackageReport report =
          new PackageCheck(reading).run(watch, cut -> traces.add(cut.cut().trace()));
      if (!report.holds() && !despiteDifferences) {
        return new Result(report, Optional.empty());
      }
      traces.rewind();
      return new Result(report, Optional.of(store(reading, traces, report.cuts(), store)));
    }
  }

  private Origin.Outcome store(PackageReading reading, TraceSpool traces, int cuts, Store store)
      throws IOException {
    Origin origin =
        new Origin("package", reading.sha256(), clean(reading.name()), clean(reading.title()));
    try {
      return store.takeIn(origin, intake -> takeIn(reading, traces, cuts, intake));
    } catch (UncheckedIOException e) {
      throw e.getCause();
    } catch (NotAccepted e) {
      throw new RefusedPackage(path + ": " + e.getMessage() + "; nothing was stored", e);
    }
  }

  private static String clean(String text) {
    String plain = text.replaceAll("\\p{Cntrl}", "?");
    return plain.length() <= 200 ? plain : plain.substring(0, 200);
  }

  private void takeIn(PackageReading reading, TraceSpool traces, int cuts, Intake intake) {
    PackageContents contents = reading.contents();
    contents.calibrations().forEach(c -> intake.calibration(c.calibration(), c.document()));
    List<Long> recordings =
        contents.recordings().stream()
            .map(r -> intake.recording(r.recording(), r.clock()))
            .toList();
    List<Session> sessions = takeInJournal(contents.journal(), intake);
    try {
      reading.forEachCut(
          number -> next(traces),
          cut -> {
            watch.check("storing", cut.number(), cuts);
            takeIn(cut, contents, recordings, sessions, intake);
          });
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Trace next(TraceSpool traces) {
    try {
      return traces.next();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private String named(String name) {
    return prefix.map(p -> p + name).orElse(name);
  }

  private List<Session> takeInJournal(JournalJson.Journal journal, Intake intake) {
    for (Blade b : journal.blades()) {
      intake.blade(
          new Blade(
              named(b.label()),
              b.steel(),
              b.hardnessHrc(),
              b.edgeAngleDegrees(),
              b.thicknessBehindEdgeMm(),
              b.edgeLengthMm(),
              b.notes()));
    }
    for (FilamentLot lot : journal.lots()) {
      intake.lot(new FilamentLot(named(lot.lot()), lot.material(), lot.diameterMm()));
    }
    List<Session> sessions = new ArrayList<>();
    for (JournalJson.Log log : journal.sessions()) {
      Session session = renamed(log.session());
      sessions.add(session);
      List<StageEntry> entries = new ArrayList<>(log.steps());
      entries.addAll(log.inspections());
      entries.forEach(entry -> requireDuring(session, entry));
      intake.session(session, stages(log), entries);
    }
    return sessions;
  }

  private Session renamed(Session s) {
    return new Session(
        named(s.name()),
        named(s.blade()),
        s.filamentLot().map(this::named),
        s.rig(),
        s.calibration(),
        s.roomCelsius(),
        s.operator(),
        s.opened(),
        s.closed());
  }

  private static List<Stage> stages(JournalJson.Log log) {
    List<Stage> stages = new ArrayList<>();
    log.stages().forEach(name -> stages.add(new Stage(stages.size() + 1, name)));
    long different =
        stages.stream().map(s -> s.name().toLowerCase(java.util.Locale.ROOT)).distinct().count();
    if (different != stages.size()) {
      throw new NotAccepted("session " + log.session().name() + " has a stage twice");
    }
    return stages;
  }

  private static void requireDuring(Session session, StageEntry entry) {
    if (!during(session, entry.at()).equals(entry.at())) {
      throw new NotAccepted("entry at " + entry.at() + " is outside session " + session.name());
    }
  }

  /** The time nearest to {@code at} within the session. */
  private static Instant during(Session session, Instant at) {
    if (at.isBefore(session.opened())) {
      return session.opened();
    }
    return session.closed().filter(at::isAfter).orElse(at);
  }

  private void takeIn(
      StatedCut cut,
      PackageContents contents,
      List<Long> recordings,
      List<Session> sessions,
      Intake intake) {
    NewCut plain = NewCut.of(recordings.get(cut.recording() - 1), cut.occurredAt(), cut.cut());
    long id = intake.cut(cut.force().map(plain::with).orElse(plain), cut.detectorVersion());
    cut.place()
        .ifPresent(
            place -> {
              Session session = sessions.get(place.session() - 1);
              String stage =
                  contents
                      .journal()
                      .sessions()
                      .get(place.session() - 1)
                      .stages()
                      .get(place.stage() - 1);
              intake.place(
                  id,
                  session,
                  new Stage(place.stage(), stage),
                  during(session, cut.occurredAt()),
                  place.placeMm());
            });
    if (cut.setAside()) {
      String why = contents.journal().reasons().getOrDefault(cut.number(), NO_REASON);
      intake.setAside(new SetAside(cut.occurredAt(), id, why));
    }
  }
}
