package snick.cli.option;

import java.util.Optional;
import picocli.CommandLine.Parameters;
import snick.store.StoreReader;

/** The session that a command is all about, as its argument. */
public final class SessionArgument {
  @Parameters(
      arity = "0..1",
      paramLabel = "SESSION",
      description =
          "Name, number or beginning of the name, see snick session list (default: the open one; to"
              + " be shown or opened again, else the latest).")
  private Optional<String> typed = Optional.empty();

  /** Name of the session to write to: it was given, or it is the only one that is open. */
  public String toWrite(StoreReader store) {
    return new SessionChoice(typed).toWrite(store);
  }

  /** Name of the session to read: as {@link #toWrite}, else the latest. */
  public String toRead(StoreReader store) {
    return new SessionChoice(typed).toRead(store);
  }
}
