package snick.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import snick.cli.option.DataDirectory;
import snick.cli.option.Setting;
import snick.cli.terminal.ProgramVersion;
import snick.cli.terminal.Terminal;

/** The top of the command line; the commands below it are in {@link TopCommand}. */
@Command(
    name = "snick",
    mixinStandardHelpOptions = true,
    versionProvider = ProgramVersion.class,
    description = "Serial-port bridge and recorder for home-built edge-force rigs.",
    exitCodeListHeading = "%nExit status:%n",
    exitCodeList = {
      "0:done",
      "1:failed; the message says what, where and what to do next",
      "2:the command line was wrong",
      "3:done, and a check did not pass",
      "4:bad input; file, line and value are named; or a new file's name is taken",
      "5:rig, port or store is in use or not there",
      "10:touch alone: load makes the reading fall"
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  snick demo                                        no hardware needed",
      "  snick run /dev/ttyACM0 --counts-per-gf 437.25",
      "  snick cuts list",
      "  snick run --help                                  options and examples"
    })
final class SnickCommand implements Runnable {
  @Mixin private DataDirectory data;
  @Spec private CommandSpec spec;

  @Override
  public void run() {
    if (!Terminal.watchesOutput()) {
      throw new ParameterException(spec.commandLine(), "Missing command");
    }
    StringWriter text = new StringWriter();
    new Welcome(data.settings().get(Setting.RIG), data.path(), DataDirectory.runtime())
        .print(new PrintWriter(text, true));
    PrintWriter out = spec.commandLine().getOut();
    out.print(data.in(text.toString()));
    out.flush();
  }
}
