package snick.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import snick.cli.option.NamedStore;
import snick.phrase.Words;

/** Whatever a message or a document tells a person to type or to read is there. */
class MentionsTest {
  private static final Path TREE = Path.of("").toAbsolutePath();
  private static final CommandLine SNICK = TopCommand.all();
  private static final Mentions MENTIONS =
      new Mentions(
          SNICK, TREE, Set.of("rig-calibration", "demo-data", "src", "firmware", "docs", ".ci"));
  private static final NamedStore NAMED = new NamedStore(Optional.of(Path.of("/srv/named")));
  private static final Pattern CODE = Pattern.compile("`([^`\\n]+)`");
  private static final Pattern LINK = Pattern.compile("\\]\\(([^)#:]+)(#[^)]*)?\\)");
  private static final Pattern TYPED =
      Pattern.compile("(?:^|[|&] |sudo (?:-u \\w+ )?)(?:java -jar target/snick\\.jar|snick) ");

  @Test
  void everyMessageNamesWhatIsThere() throws IOException {
    List<SourceTexts.Text> texts =
        new ArrayList<>(SourceTexts.of(below(TREE.resolve("src/main/java"), ".java")));
    Path catalog = TREE.resolve("src/main/resources/snick/words/en.properties");
    Words.english()
        .texts()
        .values()
        .forEach(
            text -> texts.add(new SourceTexts.Text(catalog, text.replaceAll("\\{\\w+\\}", "X"))));
    assertThat(texts)
        .anyMatch(
            text ->
                text.words()
                    .equals("X is not there; plug the rig in and list what is: snick ports"));

    List<String> missing = new ArrayList<>();
    for (SourceTexts.Text text : texts) {
      MENTIONS
          .unresolved(NAMED.in(text.words()))
          .forEach(m -> missing.add(TREE.relativize(text.file()) + ": " + m));
    }
    assertThat(missing).isEmpty();
  }

  @Test
  void everyCommandOfTheStoreThatAMessageNamesNamesTheStore() {
    Set<String> others = Set.of("", "demo", "store restore", "store salvage");
    for (CommandSpec command : all(SNICK.getCommandSpec()).toList()) {
      String name = command.qualifiedName().replaceFirst("^snick ?", "");
      boolean storing = command.optionsMap().containsKey("--data") && !others.contains(name);
      assertThat(NAMED.in("do: snick " + name + ", then"))
          .isEqualTo("do: snick " + name + (storing ? " --data /srv/named" : "") + ", then");
    }
  }

  private static Stream<CommandSpec> all(CommandSpec command) {
    return Stream.concat(
        Stream.of(command),
        command.subcommands().values().stream().flatMap(below -> all(below.getCommandSpec())));
  }

  @Test
  void thePageNamesCommandsThatAreThere() throws IOException {
    for (String ending : List.of(".html", ".js")) {
      for (Path file : below(TREE.resolve("src/main/resources/snick/view"), ending)) {
        assertThat(MENTIONS.unresolvedCommands(Files.readString(file)))
            .as(file.toString())
            .isEmpty();
      }
    }
  }

  static Stream<Path> documents() throws IOException {
    return Stream.concat(
            Stream.of("README.md", "DEVELOPERS.md", "CHANGELOG.md", "firmware-protocol.md")
                .map(TREE::resolve),
            Stream.of("rig-calibration", "demo-data", "src")
                .flatMap(folder -> below(TREE.resolve(folder), ".md").stream()))
        .filter(file -> !file.startsWith(TREE.resolve("src/test")))
        .map(TREE::relativize);
  }

  @ParameterizedTest
  @MethodSource("documents")
  void everyDocumentNamesCommandsAndOptionsThatAreThere(Path document) throws IOException {
    List<String> missing = new ArrayList<>();
    Matcher code = CODE.matcher(Files.readString(TREE.resolve(document)));
    while (code.find()) {
      missing.addAll(unresolvedCode(code.group(1)));
    }
    assertThat(missing).isEmpty();
  }

  /** A span of code that begins with a command's name is that command, its first word left out. */
  private static List<String> unresolvedCode(String code) {
    Matcher typed = TYPED.matcher(code);
    if (typed.lookingAt()) {
      return MENTIONS.unresolvedLine(code.substring(typed.end()));
    }
    boolean command = SNICK.getSubcommands().containsKey(code.replaceFirst(" .*", ""));
    return command && code.contains(" ") ? MENTIONS.unresolvedLine(code) : List.of();
  }

  @ParameterizedTest
  @MethodSource("documents")
  void everyLineToTypeCanBeTyped(Path document) throws IOException {
    List<String> wrong = new ArrayList<>();
    for (String line : linesToType(Files.readAllLines(TREE.resolve(document)))) {
      Matcher typed = TYPED.matcher(line);
      if (typed.find() && !line.startsWith("#")) {
        String rest = line.substring(typed.end());
        try {
          SNICK.parseArgs(ShellLine.words(rest).toArray(String[]::new));
        } catch (ParameterException e) {
          wrong.add(line + ": " + e.getMessage());
        }
      }
    }
    assertThat(wrong).isEmpty();
  }

  /** Lines of the blocks marked {@code sh}. */
  private static List<String> linesToType(List<String> lines) {
    List<String> typed = new ArrayList<>();
    boolean inside = false;
    for (String line : lines) {
      if (line.strip().startsWith("```")) {
        inside = !inside && line.strip().equals("```sh");
      } else if (inside) {
        typed.add(line.strip());
      }
    }
    return typed;
  }

  @ParameterizedTest
  @MethodSource("documents")
  void everyLinkLeadsToAFile(Path document) throws IOException {
    Path file = TREE.resolve(document);
    assertThat(
            LINK.matcher(Files.readString(file))
                .results()
                .map(link -> link.group(1))
                .filter(link -> !Files.exists(file.resolveSibling(link))))
        .isEmpty();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "list them: snick prots",
        "see 'snick cuts lits'; it helps",
        "snick run PORT --conuts-per-gf N",
        "which --no-such-option says",
        "read rig-calibration/no-such.csv first",
        "read no-such.md first"
      })
  void aMadeUpNameIsFound(String message) {
    assertThat(MENTIONS.unresolved(message)).hasSize(message.contains("conuts") ? 2 : 1);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "list them: snick ports",
        "snick run PORT --counts-per-gf N, or snick demo",
        "see 'snick cuts list'; and firmware-protocol.md",
        "snick: no cut 5; wait --json",
        "rig-calibration/procedure.md)"
      })
  void aTrueNameIsNotComplainedOf(String message) {
    assertThat(MENTIONS.unresolved(message)).isEmpty();
  }

  private static List<Path> below(Path folder, String ending) {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(file -> file.toString().endsWith(ending)).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
