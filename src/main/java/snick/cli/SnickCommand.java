package snick.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import snick.cli.option.DataDirectory;
import snick.cli.option.OwnFolder;
import snick.cli.option.Setting;
import snick.cli.option.Settings;
import snick.cli.terminal.Terminal;
import snick.cli.terminal.Version;

/** The top of the command line; the commands below it are in {@link TopCommand}. */
@Command(
    name = "snick",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
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
  @Spec private CommandSpec spec;

  @Override
  public void run() {
    if (!Terminal.watchesOutput()) {
      throw new ParameterException(spec.commandLine(), "Missing command");
    }
    Settings settings = Settings.of(spec);
    Path store = settings.get(Setting.STORE).map(Path::of).orElseGet(OwnFolder.DATA::path);
    PrintWriter out = spec.commandLine().getOut();
    new Welcome(settings.get(Setting.RIG), store, DataDirectory.runtime()).print(out);
    out.flush();
  }
}
