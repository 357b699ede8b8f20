package snick.cli;

import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.StreamSupport;
import picocli.CommandLine;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;

/**
 * A completion function for zsh, one function a command, for {@code _arguments} (zshcompsys(1)).
 */
final class ZshCompletion {
  private final StringBuilder text = new StringBuilder();

  private ZshCompletion() {}

  /** The file {@code _snick}. */
  static String of(CommandLine root) {
    ZshCompletion completion = new ZshCompletion();
    String name = root.getCommandName();
    completion.text.append("#compdef ").append(name).append('\n');
    completion.command(root.getCommandSpec());
    completion.text.append("\n_").append(name).append(" \"$@\"\n");
    return completion.text.toString();
  }

  private void command(CommandSpec spec) {
    text.append('\n').append(function(spec)).append("() {\n");
    text.append("  local curcontext=\"$curcontext\" state line\n");
    text.append("  _arguments -C -S");
    spec.options().stream()
        .filter(option -> !option.hidden())
        .forEach(option -> Arrays.stream(option.names()).forEach(name -> option(option, name)));
    if (spec.subcommands().isEmpty()) {
      spec.positionalParameters().forEach(p -> argument("*:" + p.paramLabel() + ":" + values(p)));
      text.append("\n}\n");
    } else {
      argument("1: :->command");
      argument("*:: :->arguments");
      text.append('\n');
      choice(spec);
    }
    distinct(spec).forEach(this::command);
  }

  private void option(OptionSpec option, String name) {
    String repeated = option.isMultiValue() ? "*" : "";
    String joined = option.arity().max() > 0 && name.startsWith("--") ? "=" : "";
    String value =
        option.arity().max() == 0 ? "" : ":" + plain(option.paramLabel()) + ":" + values(option);
    argument(
        repeated
            + name
            + joined
            + "["
            + plain(Described.joined(option.description()))
            + "]"
            + value);
  }

  private void argument(String specification) {
    text.append(" \\\n    '").append(specification.replace("'", "'\\''")).append('\'');
  }

  private void choice(CommandSpec spec) {
    text.append("  case $state in\n    command)\n      local -a commands\n      commands=(\n");
    for (CommandSpec sub : distinct(spec)) {
      String line = sub.name() + ":" + Described.of(sub);
      text.append("        '").append(line.replace("'", "'\\''")).append("'\n");
    }
    text.append("      )\n      _describe command commands ;;\n    arguments)\n");
    text.append("      case $words[1] in\n");
    for (CommandSpec sub : distinct(spec)) {
      text.append("        ").append(sub.name()).append(") ").append(function(sub)).append(" ;;\n");
    }
    text.append("      esac ;;\n  esac\n}\n");
  }

  private static Set<CommandSpec> distinct(CommandSpec spec) {
    return spec.subcommands().values().stream()
        .map(CommandLine::getCommandSpec)
        .collect(Collectors.toCollection(LinkedHashSet::new));
  }

  private static String function(CommandSpec spec) {
    return "_" + spec.qualifiedName("_").replace('-', '_');
  }

  /** Words to choose from, or files. */
  private static String values(ArgSpec argument) {
    if (argument.completionCandidates() != null) {
      List<String> words =
          StreamSupport.stream(argument.completionCandidates().spliterator(), false).toList();
      return "(" + String.join(" ", words) + ")";
    }
    if (argument.paramLabel().matches("DIR|FOLDER")) {
      return "_files -/";
    }
    return argument.paramLabel().matches(".*(FILE|PORT|PATH).*") ? "_files" : "";
  }

  private static String plain(String words) {
    return words.replaceAll("([\\[\\]:\\\\])", "\\\\$1");
  }
}
