package snick.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import picocli.AutoComplete;
import picocli.CommandLine;

/**
 * Writes what a package brings along and what follows from the command line's model: manual pages
 * and completion. Runs in the build only.
 */
public final class GeneratedFiles {
  private static final String PROGRAM = "snick";

  private GeneratedFiles() {}

  /**
   * Writes them.
   *
   * @param arguments directory that takes {@code man1}, {@code bash} and {@code zsh}; version; time
   *     of this version, ISO 8601
   */
  public static void main(String[] arguments) throws IOException {
    Path directory = Path.of(arguments[0]);
    String version = arguments[1];
    String date = arguments[2].substring(0, "2026-01-01".length());
    manual(TopCommand.all(), made(directory.resolve("man1")), version, date);
    String bash = AutoComplete.bash(PROGRAM, TopCommand.all());
    Files.writeString(made(directory.resolve("bash")).resolve(PROGRAM), bash);
    Files.writeString(
        made(directory.resolve("zsh")).resolve("_" + PROGRAM), ZshCompletion.of(TopCommand.all()));
  }

  private static void manual(CommandLine command, Path directory, String version, String date)
      throws IOException {
    Files.writeString(
        directory.resolve(ManualPage.name(command.getCommandSpec()) + ".1"),
        ManualPage.of(command, version, date),
        StandardCharsets.US_ASCII);
    for (CommandLine sub : command.getSubcommands().values()) {
      manual(sub, directory, version, date);
    }
  }

  private static Path made(Path directory) throws IOException {
    return Files.createDirectories(directory);
  }
}
