package snick.store.database;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Proxy;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.time.Clock;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Consumer;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.journal.Blade;
import snick.journal.Session;
import snick.journal.Session.Equipment;
import snick.journal.Stage;
import snick.store.Examples;
import snick.store.SessionEvidence;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.store.record.NewCut;
import snick.store.table.CutTable;
import snick.store.table.RecordingTable;

/**
 * What people look at reads no table from end to end that grows with use ("EXPLAIN QUERY PLAN",
 * sqlite.org/eqp.html).
 */
class QueryPlanTest {
  private static final String SESSION = "a session";

  /** In these, and in what is made while a query runs, a row is a thing people own or name. */
  private static final Set<String> FEW_ROWS =
      Set.of("rig", "calibration", "calibration_origin", "origin", "blade", "filament_lot");

  /** Newest first and ended by a limit, or those alone that run. */
  private static final Set<String> WALKED =
      Set.of(
          "SCAN c USING INDEX cut_by_time",
          "SCAN session",
          "SCAN session USING INDEX session_running");

  private static final Pattern TABLES =
      Pattern.compile(
          "\\b(?:FROM|JOIN|INTO|UPDATE) (\\w+)(?: (?!ON|WHERE|JOIN|ORDER|LEFT)(\\w+))?");

  @TempDir Path directory;

  private void fill() {
    try (Store store = Store.open(directory, Clock.systemUTC())) {
      store.journal().add(Blade.labelled("a blade"));
      store
          .journal()
          .open(
              new Session(
                  SESSION,
                  "a blade",
                  new Equipment(Optional.empty(), Optional.empty(), Optional.empty()),
                  OptionalDouble.empty(),
                  Optional.empty(),
                  Examples.NOON,
                  Optional.empty()));
      store.journal().begin(SESSION, "as found");
      long recording = store.startRecording(Examples.recording());
      for (int number = 1; number <= 3; number++) {
        store.append(
            NewCut.of(recording, Examples.NOON, Examples.severed(number))
                .inRunningStage(OptionalDouble.empty()));
      }
    }
  }

  private void look(StoreReader reader) {
    CutSelection session = CutSelection.all().inSession(SESSION);
    CutSummary newest = reader.latest(CutSelection.all(), 2).get(0);
    reader.latestBefore(CutSelection.all(), newest, 2);
    reader.latest(session, 2);
    reader.latest(session.counting(), 2);
    reader.count(session);
    reader.forEachSummary(session, cut -> {});
    reader.forEachSummary(CutSelection.all().inStage(SESSION, new Stage(1, "as found")), c -> {});
    reader.forEachSummary(CutSelection.all().ofBlade("a blade"), cut -> {});
    reader.cut(newest.id());
    reader.results(newest.id());
    reader.forces(newest.id());
    reader.originOfCut(newest.id());
    reader.setAsideActs(newest.id());
    reader.recording(newest.recordingId());
    SessionEvidence.read(reader, SESSION);
    reader.journal().latestSessions(5);
    reader.journal().sessionsOfBlade("a blade");
    reader.journal().sessionHistory(SESSION);
    reader.journal().bladeHistory("a blade");
    reader.journal().runningSession(Examples.recording().deviceId());
    reader.rigs();
    reader.currentCalibration(Examples.recording().deviceId());
    reader.verifications(Examples.recording().deviceId());
    reader.evidence(Examples.recording().deviceId(), "rig check");
  }

  /** What storing a cut asks for. */
  private void append(Store store) {
    long recording = store.startRecording(Examples.recording());
    store.append(
        NewCut.of(recording, Examples.NOON, Examples.severed(1))
            .inRunningStage(OptionalDouble.empty()));
    store.append(NewCut.of(recording, Examples.NOON, Examples.severed(1)));
  }

  @Test
  void looksScanNoTableThatGrows() throws Exception {
    fill();
    assertNoScan(database -> look(new StoreReader(database)), 30);
  }

  @Test
  void storingScansNoTableThatGrows() throws Exception {
    fill();
    assertNoScan(database -> append(new Store(database, Clock.systemUTC())), 8);
  }

  @Test
  void aTakenInRecordingIsFoundByRigAndStart() throws Exception {
    fill();
    assertNoScan(
        database ->
            new RecordingTable(database)
                .find(Examples.recording().deviceId(), Examples.recording().startedAt()),
        1);
  }

  /** The whole table would be a scan: the test can fail. */
  @Test
  void aCountOfEverythingIsAScan() throws Exception {
    fill();
    assertThat(scans(database -> new CutTable(database).count(CutSelection.all()), 1)).hasSize(1);
  }

  private void assertNoScan(Consumer<Database> work, int leastStatements) throws Exception {
    assertThat(scans(work, leastStatements)).isEmpty();
  }

  private List<String> scans(Consumer<Database> work, int leastStatements) throws Exception {
    String url = "jdbc:sqlite:" + StoreFile.in(directory);
    try (Connection connection = DriverManager.getConnection(url)) {
      Set<String> asked = new LinkedHashSet<>();
      work.accept(new Database(StoreFile.in(directory), listening(connection, asked)));
      assertThat(asked).hasSizeGreaterThanOrEqualTo(leastStatements);
      List<String> found = new ArrayList<>();
      for (String sql : asked) {
        addScans(connection, sql, found);
      }
      return found;
    }
  }

  /** {@code connection}, which lays down the statements it is asked to prepare. */
  private static Connection listening(Connection connection, Set<String> asked) {
    return (Connection)
        Proxy.newProxyInstance(
            QueryPlanTest.class.getClassLoader(),
            new Class<?>[] {Connection.class},
            (proxy, method, arguments) -> {
              if (method.getName().equals("prepareStatement")) {
                asked.add((String) arguments[0]);
              }
              try {
                return method.invoke(connection, arguments);
              } catch (InvocationTargetException e) {
                throw e.getCause();
              }
            });
  }

  private static void addScans(Connection connection, String sql, List<String> found)
      throws Exception {
    try (var statement = connection.prepareStatement("EXPLAIN QUERY PLAN " + sql);
        var plan = statement.executeQuery()) {
      while (plan.next()) {
        String step = plan.getString("detail");
        if (step.startsWith("SCAN ") && !isBounded(step, sql)) {
          found.add(step + " of " + sql);
        }
      }
    }
  }

  private static boolean isBounded(String step, String sql) {
    return (WALKED.contains(step) && sql.contains("LIMIT"))
        || step.equals("SCAN CONSTANT ROW")
        || FEW_ROWS.contains(table(step.split(" ", 3)[1], sql));
  }

  /** The table that a name in a plan stands for. */
  private static String table(String alias, String sql) {
    return TABLES
        .matcher(sql)
        .results()
        .filter(found -> alias.equals(found.group(2)))
        .map(found -> found.group(1))
        .findFirst()
        .orElse(alias);
  }
}
