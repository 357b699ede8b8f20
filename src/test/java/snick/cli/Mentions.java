package snick.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;

/** Commands, options and files that a text for people names, held against what there is. */
final class Mentions {
  private static final Pattern COMMAND = Pattern.compile("(?<![\\w/.~-])(')?snick (?=[a-z-])");
  private static final Pattern END_OF_COMMAND =
      Pattern.compile("[;)\\n]|[,.:](?=\\s|$)|\\.$|   |: ");
  private static final Pattern OPTION = Pattern.compile("(?<![\\w-])--[a-z][a-z0-9-]*");
  private static final Pattern FILE =
      Pattern.compile("(?<![\\w/.:-])((?:[\\w.-]+/)+[\\w.-]*\\w|[\\w-]+\\.md)(?![\\w*])");

  private final CommandSpec root;
  private final Path tree;
  private final Set<String> topFolders;
  private final Set<String> options;

  /**
   * Mentions are looked up here.
   *
   * @param root the command line
   * @param tree the project's folder
   * @param topFolders folders in it whose files are named by path
   */
  Mentions(CommandLine root, Path tree, Set<String> topFolders) {
    this.root = root.getCommandSpec();
    this.tree = tree;
    this.topFolders = topFolders;
    this.options =
        all(this.root)
            .flatMap(command -> command.optionsMap().keySet().stream())
            .collect(Collectors.toSet());
  }

  private static Stream<CommandSpec> all(CommandSpec command) {
    return Stream.concat(
        Stream.of(command),
        command.subcommands().values().stream().flatMap(sub -> all(sub.getCommandSpec())));
  }

  /** What {@code text} names and is not there; empty if all is well. */
  List<String> unresolved(String text) {
    List<String> missing = new ArrayList<>(unresolvedCommands(text));
    OPTION
        .matcher(text)
        .results()
        .map(option -> option.group())
        .filter(option -> !options.contains(option))
        .forEach(option -> missing.add("no command has " + option));
    missing.addAll(unresolvedFiles(text));
    return missing;
  }

  /** The same, of commands and their options alone. */
  List<String> unresolvedCommands(String text) {
    List<String> missing = new ArrayList<>();
    Matcher mention = COMMAND.matcher(text);
    while (mention.find()) {
      String rest = text.substring(mention.end());
      if (mention.group(1) != null && rest.contains("'")) {
        rest = rest.substring(0, closing(rest));
      }
      missing.addAll(unresolvedLine(untilItsEnd(rest)));
    }
    return missing;
  }

  /** Place of the quote that closes what was opened before: not one that opens a word. */
  private static int closing(String rest) {
    Matcher quote = Pattern.compile("(?<=\\S)'(?!\\w)").matcher(rest);
    return quote.find() ? quote.start() : rest.length();
  }

  private static String untilItsEnd(String rest) {
    Matcher end = END_OF_COMMAND.matcher(rest);
    return end.find() ? rest.substring(0, end.start()) : rest;
  }

  /** What is wrong with a command line, given without its first word. */
  List<String> unresolvedLine(String line) {
    List<String> words = ShellLine.words(line);
    CommandSpec command = root;
    int at = 0;
    while (at < words.size() && command.subcommands().containsKey(words.get(at))) {
      command = command.subcommands().get(words.get(at)).getCommandSpec();
      at++;
    }
    List<String> missing = new ArrayList<>();
    if (at < words.size() && !fits(command, words.get(at))) {
      missing.add(command.qualifiedName() + " has no command " + words.get(at));
    }
    for (String word : words.subList(at, words.size())) {
      String name = word.replaceFirst("=.*", "");
      if (name.matches("--?[a-z][a-z-]*") && !command.optionsMap().containsKey(name)) {
        missing.add(command.qualifiedName() + " has no " + name);
      }
    }
    return missing;
  }

  private static boolean fits(CommandSpec command, String word) {
    return !word.matches("[a-z][a-z-]*")
        || !command.positionalParameters().isEmpty()
        || command.subcommands().isEmpty();
  }

  private List<String> unresolvedFiles(String text) {
    return FILE.matcher(text)
        .results()
        .map(file -> file.group(1))
        .filter(file -> file.endsWith(".md") || topFolders.contains(file.replaceFirst("/.*", "")))
        .filter(file -> !Files.exists(tree.resolve(file)))
        .map(file -> "no file " + file)
        .toList();
  }
}
