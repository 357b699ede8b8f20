package snick.store;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import snick.cut.Cut;
import snick.cut.CutFigures;
import snick.cut.Outcome;
import snick.cut.Peak;
import snick.force.budget.Calibration;
import snick.force.budget.DerivedForce;
import snick.journal.Blade;
import snick.journal.CutPlacement;
import snick.journal.EdgeDirection;
import snick.journal.Finding;
import snick.journal.Inspection;
import snick.journal.Inspection.Look;
import snick.journal.Method;
import snick.journal.Pressure;
import snick.journal.Session;
import snick.journal.Session.Equipment;
import snick.journal.SharpeningStep;
import snick.journal.SharpeningStep.Grain;
import snick.journal.Side;
import snick.journal.Stage;
import snick.journal.StageEntry;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.quantity.SampleRate;
import snick.store.database.Database;
import snick.store.database.StoreFile;
import snick.store.record.CutForce;
import snick.store.record.Derivation;
import snick.store.record.NewCut;
import snick.store.record.Recording;
import snick.store.table.BladeTable;
import snick.store.table.CutTable;
import snick.store.table.EntryTable;
import snick.store.table.ForceTable;
import snick.store.table.RecordingTable;
import snick.store.table.SessionTable;
import snick.store.table.StageEntryTable;

/**
 * Fills a store with cuts of short traces, forces and a journal: five stages of ten cuts a session,
 * some sessions a blade, a step and a look a stage, a recording a session; the last session runs
 * on. Arguments: a directory, the number of cuts, a multiple of 50, and sessions a blade (10 if not
 * said). Figures are invented.
 */
final class FillStore {
  private static final String DEVICE = "51a0000000000001";
  private static final int CUTS_A_STAGE = 10;
  private static final int STAGES_A_SESSION = 5;
  private static final int CUTS_A_SESSION = CUTS_A_STAGE * STAGES_A_SESSION;
  private static final int SESSIONS_A_TRANSACTION = 100;
  private static final int SAMPLES = 24;
  private static final Duration CUT_TO_CUT = Duration.ofSeconds(20);

  private final Database database;
  private final int sessionsABlade;
  private final Store store;
  private final SessionTable sessions;
  private final StageEntryTable placements;
  private final EntryTable entries;
  private final Calibration calibration = Calibration.countsPerGramForce(437.25, Examples.NOON);

  private FillStore(Database database, int sessionsABlade) {
    this.database = database;
    this.sessionsABlade = sessionsABlade;
    store = new Store(database, Clock.systemUTC());
    sessions = new SessionTable(database);
    placements = new StageEntryTable(database);
    entries = new EntryTable(database);
  }

  public static void main(String[] args) {
    Path directory = Path.of(args[0]);
    Store.open(directory, Clock.systemUTC()).close();
    try (Database database = Database.writer(StoreFile.in(directory))) {
      database.writeAheadLog();
      int sessionsABlade = args.length > 2 ? Integer.parseInt(args[2]) : 10;
      new FillStore(database, sessionsABlade).fill(Integer.parseInt(args[1]) / CUTS_A_SESSION);
    }
  }

  private void fill(int number) {
    store.add(calibration, Optional.empty());
    for (int i = 0; i < number; i += SESSIONS_A_TRANSACTION) {
      int first = i;
      database.write(
          () -> {
            for (int s = first; s < Math.min(number, first + SESSIONS_A_TRANSACTION); s++) {
              session(s, s == number - 1);
            }
            return null;
          });
    }
    database.execute("PRAGMA wal_checkpoint(TRUNCATE)");
  }

  private void session(int number, boolean runsOn) {
    Instant opened = Examples.NOON.plus(CUT_TO_CUT.multipliedBy((long) number * CUTS_A_SESSION));
    String blade = "blade " + number / sessionsABlade;
    if (number % sessionsABlade == 0) {
      new BladeTable(database).add(Blade.labelled(blade), opened);
    }
    String name = "session " + number;
    sessions.open(
        new Session(
            name,
            blade,
            new Equipment(Optional.empty(), Optional.of(DEVICE), Optional.empty()),
            OptionalDouble.empty(),
            Optional.empty(),
            opened,
            Optional.empty()),
        opened);
    long recording = new RecordingTable(database).add(recording(opened));
    for (int i = 0; i < CUTS_A_SESSION; i++) {
      cut(recording, name, i, opened.plus(CUT_TO_CUT.multipliedBy(i)));
    }
    if (!runsOn) {
      sessions.close(name, opened.plus(CUT_TO_CUT.multipliedBy(CUTS_A_SESSION)));
    }
  }

  private static Recording recording(Instant at) {
    return new Recording(
        DEVICE,
        "virtualrig 1",
        "/dev/ttyUSB0",
        Recording.Form.BINARY,
        at,
        OptionalInt.of(128),
        Optional.of(new SampleRate(80)),
        0);
  }

  private void cut(long recording, String session, int index, Instant at) {
    Stage stage = new Stage(1 + index / CUTS_A_STAGE, "stage " + (1 + index / CUTS_A_STAGE));
    if (index % CUTS_A_STAGE == 0) {
      sessions.begin(session, stage);
      note(session, stage, at, step(stage, at));
      note(session, stage, at, look(stage, at));
    }
    double gramForce = 220 - 25 * stage.order() + index * 7 % 11;
    Cut cut = severed(index + 1, gramForce * 437.25);
    long id = new CutTable(database).add(NewCut.of(recording, at, cut), Derivation.own(cut, at));
    new ForceTable(database).add(id, OptionalLong.empty(), force(gramForce), at);
    OptionalDouble place = OptionalDouble.of(10 + index % CUTS_A_STAGE * 15);
    note(session, stage, at, new CutPlacement(at, stage.name(), id, place));
  }

  private void note(String session, Stage stage, Instant at, StageEntry content) {
    placements.add(session, stage, entries.add(at, content));
  }

  private static SharpeningStep step(Stage stage, Instant at) {
    return new SharpeningStep(
        at,
        stage.name(),
        "stone " + stage.order(),
        new Grain(OptionalInt.of(400 * stage.order()), OptionalDouble.empty()),
        Optional.of(EdgeDirection.EDGE_LEADING),
        OptionalInt.of(10),
        Optional.of(Pressure.LIGHT),
        "");
  }

  private static Inspection look(Stage stage, Instant at) {
    return new Inspection(
        at,
        stage.name(),
        new Look(Method.RAKING_LIGHT, OptionalDouble.empty()),
        Side.BOTH,
        Optional.empty(),
        Finding.NONE,
        "");
  }

  private CutForce force(double gramForce) {
    MeasuredForce measured = MeasuredForce.ofNewtons(Force.ofGramForce(gramForce).newtons(), 0.003);
    return new CutForce(
        new DerivedForce.Inside(calibration.id(), measured, 50),
        Force.ofGramForce(gramForce * 0.99));
  }

  private static Cut severed(int number, double counts) {
    return new Cut(
        number,
        new CutFigures(
            Outcome.SEVERED,
            1,
            1_000_000_000L,
            OptionalLong.of(2_000_000_000L),
            Optional.of(new Peak(counts * 0.99, counts, 60)),
            new CutFigures.Shape(40_000, 1_500_000, 0, 70),
            new CutFigures.Rest(84_210, 84_211, 65),
            Set.of()),
        Examples.trace(number, SAMPLES));
  }
}
