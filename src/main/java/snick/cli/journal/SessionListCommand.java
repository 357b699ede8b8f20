package snick.cli.journal;

import java.util.List;
import java.util.Map;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import snick.cli.option.DataCommand;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Table;
import snick.cli.terminal.WallTime;
import snick.journal.Session;
import snick.store.StoreReader;
import snick.store.record.CutSelection;

/** Lists sessions. */
@Command(
    name = "list",
    description = "List sessions, newest first.",
    footer = {"  snick session list", "  snick session list --limit 100 --json"})
final class SessionListCommand extends DataCommand implements Runnable {

  @Option(
      names = "--limit",
      paramLabel = "N",
      defaultValue = "20",
      description = "At most so many (default: ${DEFAULT-VALUE}).")
  private int limit;

  @Option(names = "--json", description = "One JSON object a line for each session.")
  private boolean json;

  @Override
  public void run() {
    if (!(limit >= 1 && limit <= 100_000)) {
      throw Refusal.usage("--limit " + limit + " is outside 1 to 100000");
    }
    try (StoreReader store = OpenedStore.toRead(data)) {
      List<Session> sessions = store.journal().latestSessions(limit);
      tellEach(
          json,
          sessions,
          session -> numbered(store, session),
          data.in("No sessions yet. Begin one: snick session start --blade LABEL"),
          () -> table(store, sessions).print(out()));
    }
  }

  private static Map<String, Object> numbered(StoreReader store, Session session) {
    Map<String, Object> object = NoteJson.of(session);
    object.put("number", store.journal().sessionNumber(session.name()));
    return object;
  }

  private static Table table(StoreReader store, List<Session> sessions) {
    Table table = new Table(">#", "SESSION", "BLADE", "FILAMENT", "OPENED", "CLOSED", ">CUTS");
    for (Session session : sessions) {
      table.row(
          store.journal().sessionNumber(session.name()),
          session.name(),
          session.blade(),
          session.equipment().filamentLot().orElse(""),
          WallTime.of(session.opened()),
          session.closed().map(WallTime::of).orElse("is open"),
          store.count(CutSelection.all().inSession(session.name())));
    }
    return table;
  }
}
