package snick.cli.terminal;

import java.util.List;
import picocli.CommandLine.ParameterException;

/** A command that does nothing but to hold others. */
public abstract class CommandGroup extends TypedCommand implements Runnable {
  @Override
  public final void run() {
    List<String> names = List.copyOf(spec().subcommands().keySet());
    int last = names.size() - 1;
    String first = String.join(", ", names.subList(0, last));
    throw new ParameterException(
        spec().commandLine(),
        "Missing command: " + first + (first.isEmpty() ? "" : " or ") + names.get(last));
  }
}
