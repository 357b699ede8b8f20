package snick.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;

/** The help of every command: what it does, every option said, examples that can be typed. */
class HelpTest {
  private static final CommandLine SNICK = TopCommand.all();

  static Stream<CommandSpec> commands() {
    return below(SNICK);
  }

  private static Stream<CommandSpec> below(CommandLine command) {
    return Stream.concat(
        Stream.of(command.getCommandSpec()),
        command.getSubcommands().values().stream().flatMap(HelpTest::below));
  }

  @ParameterizedTest
  @MethodSource("commands")
  void everyCommandSaysWhatItDoes(CommandSpec command) {
    assertThat(String.join(" ", command.usageMessage().description())).matches("[A-Z].*");
  }

  /** A list of commands shows of each description its first line alone. */
  @ParameterizedTest
  @MethodSource("commands")
  void theFirstLineOfADescriptionIsAWholeSentence(CommandSpec command) {
    assertThat(command.usageMessage().description()[0]).endsWith(".");
  }

  @ParameterizedTest
  @MethodSource("commands")
  void everyOptionAndArgumentIsDescribed(CommandSpec command) {
    command
        .args()
        .forEach(
            argument ->
                assertThat(String.join(" ", argument.description()))
                    .as(argument.toString())
                    .isNotBlank());
  }

  @ParameterizedTest
  @MethodSource("commands")
  void everyCommandShowsAnExampleOfItself(CommandSpec command) {
    assertThat(examples(command))
        .as("examples of " + command.qualifiedName())
        .anyMatch(example -> example.contains(command.qualifiedName()));
  }

  /** Longer lines are broken in the middle of a word of the command line. */
  @ParameterizedTest
  @MethodSource("commands")
  void whatIsSetInLinesFitsATerminal(CommandSpec command) {
    String[] description = command.usageMessage().description();
    assertThat(Stream.concat(asPrinted(command).stream(), Arrays.stream(description)))
        .filteredOn(line -> line.startsWith("  "))
        .allSatisfy(line -> assertThat(line).hasSizeLessThanOrEqualTo(80));
  }

  @ParameterizedTest
  @MethodSource("commands")
  void helpIsPrintedWithoutAWarning(CommandSpec command) {
    assertThat(warnings(command)).isEmpty();
  }

  @Test
  void aWarningIsFound() {
    CommandSpec broken = CommandSpec.create();
    broken.usageMessage().description("100 % of it, and %q");
    assertThat(warnings(new CommandLine(broken).getCommandSpec())).contains("%q");
  }

  /** What the parser says on standard error of what it cannot format. */
  private static String warnings(CommandSpec command) {
    PrintStream before = System.err;
    ByteArrayOutputStream said = new ByteArrayOutputStream();
    System.setErr(new PrintStream(said, true, StandardCharsets.UTF_8));
    try {
      assertThat(command.commandLine().getUsageMessage()).isNotBlank();
    } finally {
      System.setErr(before);
    }
    return said.toString(StandardCharsets.UTF_8);
  }

  @ParameterizedTest
  @MethodSource("commands")
  void everyExampleCanBeTyped(CommandSpec command) {
    for (String example : examples(command)) {
      List<String> words = ShellLine.words(example.substring(example.indexOf("snick ")));
      SNICK.parseArgs(words.subList(1, words.size()).toArray(String[]::new));
    }
  }

  @Test
  void theCommandThatIsAskedForIsMadeUnderItsOwnName() {
    for (String name : TopCommand.NAMES) {
      Map<String, CommandLine> made = TopCommand.neededBy(name, "--help").getSubcommands();
      Class<?> command = made.get(name).getCommand().getClass();
      assertThat(made).containsOnlyKeys(name);
      assertThat(command.getAnnotation(Command.class).name()).isEqualTo(name);
    }
    assertThat(TopCommand.neededBy("--help").getSubcommands()).hasSameSizeAs(TopCommand.NAMES);
    assertThat(TopCommand.neededBy("no-such").getSubcommands()).hasSameSizeAs(TopCommand.NAMES);
  }

  @Test
  void anExampleThatCannotBeTypedIsFound() {
    assertThatThrownBy(() -> SNICK.parseArgs("cuts", "list", "--no-such"))
        .isInstanceOf(ParameterException.class);
  }

  /** Lines of the footer before its first empty one; a line that ends in a backslash goes on. */
  private static List<String> examples(CommandSpec command) {
    List<String> examples = new ArrayList<>();
    String begun = "";
    for (String line : asPrinted(command)) {
      if (line.isBlank()) {
        break;
      }
      String whole = begun + line.strip();
      begun = whole.endsWith("\\") ? whole.substring(0, whole.length() - 1) : "";
      if (begun.isEmpty()) {
        examples.add(whole);
      }
    }
    return examples;
  }

  private static List<String> asPrinted(CommandSpec command) {
    return Arrays.stream(command.usageMessage().footer())
        .map(line -> line.replace("%%", "%"))
        .toList();
  }
}
