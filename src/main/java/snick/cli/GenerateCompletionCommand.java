package snick.cli;

import picocli.AutoComplete;
import picocli.CommandLine.Command;
import snick.cli.terminal.TypedCommand;

/** Prints the completion script of the whole command line. */
@Command(
    name = "generate-completion",
    description = {
      "Print a completion script for bash, which zsh takes too. A package that was installed has"
          + " brought it along already."
    },
    footer = {"  snick generate-completion > snick.bash    then: source snick.bash"})
final class GenerateCompletionCommand extends TypedCommand implements Runnable {
  @Override
  public void run() {
    String script = AutoComplete.bash(spec().root().name(), TopCommand.all());
    out().print(script);
  }
}
