package snick.cli;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import picocli.CommandLine;
import picocli.CommandLine.Help;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;

/** The manual page of one command, from what its {@code --help} shows. */
final class ManualPage {
  private static final int ONE_LINE_COLUMNS = 20_000;

  private final CommandSpec spec;
  private final String version;
  private final String date;
  private final Roff roff = new Roff();

  private ManualPage(CommandSpec spec, String version, String date) {
    this.spec = spec;
    this.version = version;
    this.date = date;
  }

  /**
   * The page.
   *
   * @param command any command, a subcommand too
   * @param version version of the program
   * @param date date of this version, ISO 8601
   */
  static String of(CommandLine command, String version, String date) {
    command.setUsageHelpWidth(ONE_LINE_COLUMNS);
    ManualPage page = new ManualPage(command.getCommandSpec(), version, date);
    page.write();
    return page.roff.toString();
  }

  /** Name of the page: {@code snick-cuts-list}. */
  static String name(CommandSpec spec) {
    return spec.qualifiedName("-");
  }

  private void write() {
    String name = name(spec);
    roff.macro("TH", name.toUpperCase(Locale.ROOT), "1", date, "Snick " + version, "");
    roff.macro("SH", "NAME").line(name + " - " + Described.of(spec));
    synopsis();
    roff.macro("SH", "DESCRIPTION");
    description();
    positionals();
    options();
    commands();
    exitStatus();
    examples();
    seeAlso();
  }

  private void synopsis() {
    Help help = spec.commandLine().getHelp();
    roff.macro("SH", "SYNOPSIS");
    help.synopsis(0).lines().forEach(roff::line);
  }

  /** Indented lines are tables and stay as they are. */
  private void description() {
    for (String line : Described.lines(spec)) {
      if (line.startsWith(" ")) {
        roff.macro("nf").verbatim(line).macro("fi");
      } else {
        roff.line(line);
      }
    }
  }

  private void positionals() {
    List<PositionalParamSpec> shown =
        spec.positionalParameters().stream().filter(p -> !p.hidden()).toList();
    if (shown.isEmpty()) {
      return;
    }
    roff.macro("SH", "ARGUMENTS");
    for (PositionalParamSpec positional : shown) {
      roff.macro("TP")
          .bold(positional.paramLabel())
          .line(Described.joined(positional.description()));
    }
  }

  private void options() {
    roff.macro("SH", "OPTIONS");
    spec.options().stream()
        .filter(option -> !option.hidden())
        .sorted(Comparator.comparing(OptionSpec::longestName))
        .forEach(
            option ->
                roff.macro("TP").bold(names(option)).line(Described.joined(option.description())));
  }

  private static String names(OptionSpec option) {
    String names = Arrays.stream(option.names()).collect(Collectors.joining(", "));
    return option.arity().max() == 0 ? names : names + "=" + option.paramLabel();
  }

  private void commands() {
    if (spec.subcommands().isEmpty()) {
      return;
    }
    roff.macro("SH", "COMMANDS");
    for (CommandLine command : spec.subcommands().values()) {
      CommandSpec sub = command.getCommandSpec();
      roff.macro("TP").bold(sub.name()).line(Described.of(sub));
    }
  }

  private void exitStatus() {
    roff.macro("SH", "EXIT STATUS");
    spec.root()
        .usageMessage()
        .exitCodeList()
        .forEach((status, meaning) -> roff.macro("TP").bold(status).line(meaning));
  }

  /** Examples come first in the footer; what follows an empty line is said to everybody. */
  private void examples() {
    roff.macro("SH", "EXAMPLES").macro("nf");
    boolean notes = false;
    for (String line : spec.usageMessage().footer()) {
      if (line.isBlank()) {
        roff.macro("fi").macro("SH", "NOTES");
        notes = true;
      } else if (notes) {
        roff.line(line);
      } else {
        roff.verbatim(line);
      }
    }
    if (!notes) {
      roff.macro("fi");
    }
  }

  private void seeAlso() {
    StringBuilder others = new StringBuilder();
    if (spec.parent() != null) {
      others.append(name(spec.parent())).append("(1)");
    }
    for (CommandLine command : spec.subcommands().values()) {
      others.append(others.isEmpty() ? "" : ", ");
      others.append(name(command.getCommandSpec())).append("(1)");
    }
    roff.macro("SH", "SEE ALSO").line(others.toString());
  }
}
