package snick.cli.option;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import picocli.CommandLine.Option;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.ShellWord;
import snick.journal.Session;
import snick.store.StoreReader;

/** Which session is meant: {@code --session}, else the open one. */
public final class SessionChoice {
  private static final int LOOKED_AT = 1000;

  @Option(
      names = "--session",
      paramLabel = "SESSION",
      description =
          "Its name, number or the beginning of its name (default: the open one; to be read, else"
              + " the latest).")
  private Optional<String> name = Optional.empty();

  @Option(
      names = "--rig",
      paramLabel = "ID",
      description = "The session that is open on this rig, if several are.")
  private Optional<String> rig = Optional.empty();

  /** Nothing said. */
  public SessionChoice() {}

  SessionChoice(Optional<String> name) {
    this.name = name;
  }

  /** The options as they were typed, each behind a space, for a command that is told to type. */
  public String typed() {
    return name.map(typed -> " --session " + ShellWord.of(typed)).orElse("")
        + rig.map(id -> " --rig " + ShellWord.of(id)).orElse("");
  }

  private Optional<String> named(StoreReader store) {
    return name.map(store.journal()::sessionMeant);
  }

  /** Name of the session to write to: it was given, or it is the only one that is open. */
  public String toWrite(StoreReader store) {
    return named(store)
        .orElseGet(
            () ->
                onlyRunning(store)
                    .orElseThrow(
                        () ->
                            Refusal.badInput(
                                "no session is open"
                                    + rig.map(id -> " on rig " + id).orElse("")
                                    + "; begin one: snick session start NAME --blade LABEL, or name"
                                    + " one: --session SESSION")));
  }

  /** Name of the session to read: as {@link #toWrite}, else the latest. */
  public String toRead(StoreReader store) {
    return named(store).or(() -> onlyRunning(store)).orElseGet(() -> latest(store));
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
            .filter(session -> rig.isEmpty() || session.equipment().rig().equals(rig))
            .toList();
    if (running.size() > 1) {
      throw Refusal.badInput(
          running.size()
              + " sessions are open: "
              + running.stream().map(SessionChoice::told).collect(Collectors.joining(", "))
              + "; say which: --session SESSION or --rig ID");
    }
    return running.stream().map(Session::name).findFirst();
  }

  private static String told(Session session) {
    return "'"
        + session.name()
        + "' "
        + session.equipment().rig().map(id -> "(rig " + id + ")").orElse("(no rig)");
  }
}
