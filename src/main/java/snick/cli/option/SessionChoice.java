package snick.cli.option;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import picocli.CommandLine.Option;
import snick.cli.terminal.Refusal;
import snick.journal.Session;
import snick.store.StoreReader;

/** Which session is meant: {@code --session}, else the one that runs. */
public final class SessionChoice {
  private static final int LOOKED_AT = 1000;

  @Option(
      names = "--session",
      paramLabel = "NAME",
      description = "The session (default: the one that runs; only to be read, else the latest).")
  private Optional<String> name = Optional.empty();

  @Option(
      names = "--rig",
      paramLabel = "ID",
      description = "The session that runs on this rig, if several run.")
  private Optional<String> rig = Optional.empty();

  /** Name of the session to write to: it was given, or it is the only one that runs. */
  public String toWrite(StoreReader store) {
    return name.orElseGet(
        () ->
            onlyRunning(store)
                .orElseThrow(
                    () ->
                        Refusal.badInput(
                            "no session runs"
                                + rig.map(id -> " on rig " + id).orElse("")
                                + "; begin one: snick session start NAME --blade LABEL, or name"
                                + " one: --session NAME")));
  }

  /** Name of the session to read: as {@link #toWrite}, else the latest. */
  public String toRead(StoreReader store) {
    return name.or(() -> onlyRunning(store)).orElseGet(() -> latest(store));
  }

  /** The session that runs, if it is the only one, else the latest. */
  public static String anyToRead(StoreReader store) {
    return new SessionChoice().toRead(store);
  }

  private static String latest(StoreReader store) {
    return store.journal().latestSessions(1).stream()
        .map(Session::name)
        .findFirst()
        .orElseThrow(
            () ->
                Refusal.badInput(
                    "no session in the journal yet; begin one: snick session start NAME --blade"
                        + " LABEL"));
  }

  private Optional<String> onlyRunning(StoreReader store) {
    List<Session> running =
        store.journal().latestSessions(LOOKED_AT).stream()
            .filter(session -> session.closed().isEmpty())
            .filter(session -> rig.isEmpty() || session.rig().equals(rig))
            .toList();
    if (running.size() > 1) {
      throw Refusal.badInput(
          running.size()
              + " sessions run: "
              + running.stream().map(SessionChoice::told).collect(Collectors.joining(", "))
              + "; say which: --session NAME or --rig ID");
    }
    return running.stream().map(Session::name).findFirst();
  }

  private static String told(Session session) {
    return "'"
        + session.name()
        + "' "
        + session.rig().map(id -> "(rig " + id + ")").orElse("(no rig)");
  }
}
