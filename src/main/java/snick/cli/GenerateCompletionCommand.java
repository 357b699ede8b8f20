package snick.cli;

import java.util.concurrent.Callable;
import picocli.AutoComplete;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;
import snick.cli.terminal.ExitCode;

/** Prints the completion script of the whole command line. */
@Command(
    name = "generate-completion",
    mixinStandardHelpOptions = true,
    description = {
      "Print a completion script for bash, which zsh takes too. A package that was installed has"
          + " brought it along already."
    },
    footerHeading = "%nExamples:%n",
    footer = {"  snick generate-completion > snick.bash    then: source snick.bash"})
final class GenerateCompletionCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    String script = AutoComplete.bash(spec.root().name(), TopCommand.all());
    spec.commandLine().getOut().print(script);
    return ExitCode.OK;
  }
}
