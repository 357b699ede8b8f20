package snick.cli;

import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Objects;
import java.util.Optional;
import picocli.CommandLine;
import snick.cli.option.NamedStore;
import snick.cli.option.Settings;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.OwnName;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.StandardOutput;
import snick.journal.name.SlipOfName;
import snick.phrase.NotAccepted;
import snick.port.NativeFolder;
import snick.store.database.StoreException;

/** The command line's entry: the only place that ends the process. */
public final class Main {
  private Main() {}

  /** Runs the command that {@code args} names and exits with its status. */
  public static void main(String[] args) {
    NativeFolder.forJna();
    StandardOutput output = new StandardOutput();
    PrintWriter out = new PrintWriter(output, false, StandardCharsets.UTF_8);
    PrintWriter err = new PrintWriter(System.err, true, StandardCharsets.UTF_8);
    int status = run(out, err, args);
    Optional<String> loss = output.loss();
    loss.ifPresent(reason -> err.println("snick: the output could not be written: " + reason));
    System.exit(loss.isPresent() ? ExitCode.FAILED : status);
  }

  /**
   * Runs the command that {@code args} names.
   *
   * @return the exit status, see {@link ExitCode}
   */
  public static int run(PrintWriter out, PrintWriter err, String... args) {
    return run(Settings.ofPerson(), out, err, args);
  }

  /** As {@link #run(PrintWriter, PrintWriter, String...)}, with these settings. */
  static int run(Settings settings, PrintWriter out, PrintWriter err, String... args) {
    String[] ordered = TypedLine.ordered(args);
    CommandLine line = TopCommand.neededBy(ordered);
    line.setDefaultValueProvider(settings);
    line.setOut(out);
    line.setErr(err);
    line.setExecutionExceptionHandler(Main::explain);
    line.setParameterExceptionHandler(Main::explain);
    int status = line.execute(ordered);
    if (helped(line.getParseResult())) {
      OwnName.explained().ifPresent(out::println);
    }
    out.flush();
    err.flush();
    return status;
  }

  private static boolean helped(CommandLine.ParseResult parsed) {
    return parsed != null
        && parsed.asCommandLineList().stream().anyMatch(CommandLine::isUsageHelpRequested);
  }

  private static int explain(Exception failure, CommandLine command, CommandLine.ParseResult parsed)
      throws Exception {
    if (failure instanceof Refusal refusal) {
      say(refusal, command, parsed);
      return refusal.exitCode();
    }
    if (failure instanceof NotAccepted) {
      say(failure, command, parsed);
      return ExitCode.BAD_INPUT;
    }
    if (failure instanceof StoreException) {
      say(failure, command, parsed);
      return ExitCode.FAILED;
    }
    throw failure;
  }

  private static int explain(CommandLine.ParameterException wrong, String... args) {
    PrintWriter err = wrong.getCommandLine().getErr();
    new WrongLine(wrong).print(err);
    OwnName.explained().ifPresent(line -> err.println("snick: " + line));
    return ExitCode.USAGE;
  }

  private static void say(Exception failure, CommandLine command, CommandLine.ParseResult parsed) {
    PrintWriter err = command.getErr();
    String message = namedStore(parsed).in(failure.getMessage() + addition(failure));
    err.println("snick: " + PlainText.inert(message));
    OwnName.explained(message).ifPresent(line -> err.println("snick: " + line));
  }

  private static String addition(Exception failure) {
    return failure instanceof SlipOfName ? " --new adds it all the same" : "";
  }

  private static NamedStore namedStore(CommandLine.ParseResult parsed) {
    return new NamedStore(
        parsed.asCommandLineList().stream()
            .map(line -> line.getParseResult().matchedOptionValue("--data", (Path) null))
            .filter(Objects::nonNull)
            .findFirst());
  }
}
