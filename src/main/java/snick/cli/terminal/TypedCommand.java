package snick.cli.terminal;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Supplier;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** What every command has: help and version, and where it writes. */
@Command(mixinStandardHelpOptions = true, footerHeading = "%nExamples:%n")
public abstract class TypedCommand {
  @Spec private CommandSpec spec;

  /** The command as it was typed. */
  protected final CommandSpec spec() {
    return spec;
  }

  /** What was asked for goes here. */
  protected final PrintWriter out() {
    return spec.commandLine().getOut();
  }

  /** Prints a line of what was asked for, with its values as in a {@link Refusal}. */
  protected final void println(String line, Object... values) {
    out().println(Refusal.said(line, values));
  }

  /** Prints a name and what it is. */
  protected final void line(String name, String value) {
    println(String.format(Locale.ROOT, "  %-15s %s", name, PlainText.inert(value)));
  }

  /** Tells programs in one JSON object on a line, every member; people in words. */
  protected final void tell(boolean json, Supplier<Map<String, Object>> object, Runnable words) {
    if (json) {
      JsonLine.print(out(), object.get());
    } else {
      words.run();
    }
  }

  /** Tells programs of each in a line of its own; people in words, or that there is none. */
  protected final <T> void tellEach(
      boolean json,
      List<T> all,
      Function<T, Map<String, Object>> object,
      String none,
      Runnable words) {
    if (json) {
      all.forEach(one -> JsonLine.print(out(), object.apply(one)));
    } else if (all.isEmpty()) {
      out().println(none);
    } else {
      words.run();
    }
  }

  /** What is said beside it goes here. */
  protected final PrintWriter err() {
    return spec.commandLine().getErr();
  }
}
