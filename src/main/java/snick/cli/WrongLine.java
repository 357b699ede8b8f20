package snick.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.regex.Matcher;
import java.util.stream.Collectors;
import picocli.CommandLine;
import picocli.CommandLine.MissingParameterException;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.OverwrittenOptionException;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;
import snick.cli.terminal.PlainText;
import snick.journal.name.NearNames;

/**
 * What is wrong with a line that was typed, in our words: the parser's name its own terms and
 * types.
 */
record WrongLine(ParameterException wrong) {
  /** Says what is wrong, how the line should be, and where to read on. */
  void print(PrintWriter err) {
    CommandLine command = wrong.getCommandLine();
    err.println("snick: " + PlainText.inert(words()));
    if (groups() && !(wrong instanceof UnmatchedArgumentException)) {
      command.usage(err);
    } else {
      err.print(command.getHelp().fullSynopsis());
      err.println("Help with examples: " + name() + " --help");
    }
  }

  private String name() {
    return wrong.getCommandLine().getCommandSpec().qualifiedName();
  }

  /** Whether the command does nothing but hold others. */
  private boolean groups() {
    CommandLine command = wrong.getCommandLine();
    return !command.getSubcommands().isEmpty()
        && command.getCommandSpec().positionalParameters().isEmpty();
  }

  private String words() {
    if (wrong instanceof UnmatchedArgumentException unmatched) {
      return notTaken(unmatched);
    }
    if (wrong instanceof MissingParameterException missing && !missing.getMissing().isEmpty()) {
      return missing(missing.getMissing());
    }
    if (wrong instanceof OverwrittenOptionException twice) {
      return written(twice.getOverwritten()) + " is said twice: say it once";
    }
    return wrong.getArgSpec() == null
        ? wrong.getMessage()
        : written(wrong.getArgSpec()) + ": " + complaint();
  }

  private String notTaken(UnmatchedArgumentException unmatched) {
    String word = unmatched.getUnmatched().get(0);
    String what =
        unmatched.isUnknownOption()
            ? "is no option of"
            : groups() ? "is no command of" : "is more than is taken by";
    return "'" + word + "' " + what + " '" + name() + "'" + near(word, unmatched.getSuggestions());
  }

  /** The parser proposes what has letters in common; only what is near is asked about. */
  private static String near(String word, List<String> proposed) {
    List<String> near = NearNames.of(word, proposed);
    return near.isEmpty() ? "" : "; did you mean " + String.join(" or ", near) + "?";
  }

  private String missing(List<ArgSpec> arguments) {
    boolean value = wrong.getMessage().contains("parameter for option");
    return (value ? ((OptionSpec) arguments.get(0)).longestName() : "'" + name() + "'")
        + " needs "
        + arguments.stream()
            .map(
                argument ->
                    (value ? argument.paramLabel() : written(argument)) + ": " + meaning(argument))
            .collect(Collectors.joining("; "));
  }

  /** An argument as help has it. */
  private static String written(ArgSpec argument) {
    return argument instanceof OptionSpec option
        ? option.longestName() + (option.arity().max() > 0 ? " " + option.paramLabel() : "")
        : argument.paramLabel();
  }

  private static String meaning(ArgSpec argument) {
    return String.join(" ", argument.description()).replaceFirst("\\.$", "");
  }

  /** What the parser says behind the name of the argument. */
  private String complaint() {
    return wrong
        .getMessage()
        .replaceFirst("^Invalid value for (option|positional parameter)[^:]*: ", "")
        .replaceFirst(" is not a double$", " is not a number")
        .replaceFirst(" is not an? (int|long)$", " is not a whole number")
        .replaceFirst(
            "^'-?[0-9]+(\\.[0-9]+)? ?[\\p{L}%°/]+' is not a number$",
            "$0: " + Matcher.quoteReplacement(withoutUnit()));
  }

  /** In which unit a number is meant that was typed in another, perhaps. */
  private String withoutUnit() {
    ArgSpec argument = wrong.getArgSpec();
    return argument.paramLabel() + " is a number alone, without a unit. " + meaning(argument);
  }
}
